#include "sim/cutting/holding.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/say.h"
#include "sim/cutting/beam.h"
#include "sim/cutting/chuck_grip.h"
#include "sim/cutting/held_part.h"
#include "sim/cutting/holding_findings.h"
#include "sim/cutting/jaw_hold.h"

namespace firstoff {

namespace {

constexpr double kSeatMm = 0.05;  // figures of a set-up have two decimals, and metal gives

// The back end stands at the face of the chuck, or at the front of a step of the jaws.
bool seated(const Setup& setup) {
    const auto at = [&](double z) { return std::abs(setup.stock.backZ - z) <= kSeatMm; };
    if (at(0)) return true;
    const auto& steps = setup.chuck.steps;
    return std::any_of(steps.begin(), steps.end(), [&](const Chuck::Step& step) { return at(step.length); });
}

class Holding {
public:
    Holding(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
            const std::shared_ptr<const StockHistory>& stock, const LoadResult& loads)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), chuck_(setup.chuck), loads_(loads) {
        if (!stock) return;
        const StockCursor start(stock);
        hold_ = holdOf(start.billet(), gripRange(chuck_), chuck_.grip);
        frontZ_ = frontOf(start.billet());
    }

    HoldingResult estimate() {
        takeFigures();
        if (gripKnown_ && moment_ > 0 && chuck_.grip == Chuck::Grip::Outside) lookAtSpeeds();
        if (gripKnown_ && loads_.forcesKnown)
            result_.gripShare.assign(loads_.samples.size(), std::numeric_limits<float>::quiet_NaN());
        if (loads_.forcesKnown) lookAtCuts();
        if (result_.centre && setup_.tailstock->forceN <= 0) {
            miss(tr("force_kn in [tailstock]: how hard the centre is pushed up"));
        }
        if (!gripKnown_ || !loads_.forcesKnown) {
            result_.byTool.clear();
        }
        for (const GripEstimate& grip : result_.byTool) {
            if (!result_.grip || grip.neededStandingN > result_.grip->neededStandingN) result_.grip = grip;
        }
        if (!result_.grip && !result_.centre) result_.assumed.clear();
        addHoldingFindings(timeline_, toolpath_, setup_, result_);
        return std::move(result_);
    }

private:
    void miss(const char* what) { result_.missing.emplace_back(what); }
    void assume(std::string what) { result_.assumed.push_back(std::move(what)); }

    void takeFigures() {
        const bool collet = chuck_.kind == Chuck::Kind::Collet;
        if (!loads_.forcesKnown)
            miss(tr("what the bar is made of, with data for its cutting force: material in [stock]"));
        if (hold_.lengthMm <= 0) miss(tr("metal between the jaws"));
        const bool onFlats = standsOnFlats(chuck_, setup_.stock);
        if (!onFlats) miss(tr("jaws that all stand on flats of the bar: what others hold is not known"));
        if (chuck_.gripForceN <= 0) miss(tr("grip_force_kn in [chuck]: of all jaws together, standing still"));
        if (!collet && (chuck_.jawMassKg <= 0 || chuck_.jawMassRadius <= 0)) {
            miss(tr("jaw_mass_kg and jaw_mass_diameter_mm in [chuck]: of one top jaw, as it is set"));
        }
        if (!collet && !chuck_.baseJawMomentKgM) {
            miss(tr(
                "base_jaw_moment_kg_m in [chuck]: mass times radius of one base jaw; 0 where jaws are of one piece"));
        }
        gripKnown_ = chuck_.gripForceN > 0 && hold_.lengthMm > 0 && onFlats &&
                     (collet || (chuck_.jawMassKg > 0 && chuck_.jawMassRadius > 0 && chuck_.baseJawMomentKgM));
        if (gripKnown_ && !collet) {
            moment_ =
                jawMomentKgM(chuck_.jaws, chuck_.jawMassKg, chuck_.jawMassRadius, chuck_.baseJawMomentKgM.value_or(0));
        }
        if (gripKnown_) takeFactors(collet);
    }

    void takeFactors(bool collet) {
        const bool soft = chuck_.jaw == Chuck::Jaw::Soft && !collet;
        friction_ = chuck_.friction > 0 ? chuck_.friction : soft ? kSoftJawFriction : kSmoothFriction;
        if (chuck_.friction <= 0) {
            assume(
                soft ? tr("Friction at the grip is 0.15, the least of what soft jaws turned on the machine have (0.15 "
                          "to 0.20, from memory): the set-up gives no friction.")
                     : tr("Friction at the grip is 0.10, the least of what smooth jaws have (0.10 to 0.15, from "
                          "memory): the set-up gives no friction."));
        }
        forceSafety_ = chuck_.forceSafety > 0 ? chuck_.forceSafety : kLeastForceSafety;
        speedSafety_ = chuck_.speedSafety > 0 ? chuck_.speedSafety : kLeastSpeedSafety;
        if (chuck_.forceSafety <= 0) assume(tr("The factor against the cutting force is 1.5, the least of VDI 3106."));
        if (chuck_.speedSafety <= 0) assume(tr("The factor against the loss at speed is 1.5, the least of VDI 3106."));
        if (collet) {
            assume(
                tr("What speed takes from the grip of a collet is not known and left out; neither is there a speed "
                   "permitted by the grip."));
        }
        if (hold_.flatRadius < hold_.radius - kSeatMm) {
            assume(say(
                "The bar is not round where it is gripped: friction counts at the flats, {:.2f} mm from the axis, and "
                "that flats also hold by their shape is left out.",
                hold_.flatRadius));
        }
        seated_ = seated(setup_);
        assume(seated_ ? tr("The part is seated in the chuck, so a push towards it needs no grip.")
                       : tr("No stop stands behind the part, so the grip alone holds a push towards the chuck."));
        assume(tr(
            "The chuck gives the grip that the set-up says; how the cut levers at the part is left to the factors."));
    }

    // Of every move with the spindle turning, in metal or not.
    void lookAtSpeeds() {
        SpeedOfGrip top;
        for (std::uint32_t i = 0; i < timeline_.moves.size(); ++i) {
            const TimedMove& timed = timeline_.moves[i];
            for (double fraction : {0.0, 1.0}) {
                const double speed = fraction > 0 ? timed.rpmEnd : timed.rpmStart;
                if (speed > top.revPerMin) top = {i, fraction, speed, 0, 0};
            }
        }
        if (top.revPerMin <= 0) return;
        top.lossShare = centrifugalN(moment_, top.revPerMin) / chuck_.gripForceN;
        top.permittedRevPerMin = revPerMinOfLoss(chuck_.gripForceN, moment_, kGreatestLoss);
        result_.speed = top;
    }

    void lookAtCuts() {
        HeldAlong along(timeline_, toolpath_, setup_);
        bool byBoth = false;
        for (const LoadRun& run : loads_.runs) {
            const HeldPart& held = along.at(run.timedMove);
            if (!held.byTheChuck()) {
                byBoth = true;
                continue;
            }
            const std::uint32_t call = toolpath_.moves[timeline_.moves[run.timedMove].move].call;
            if (call != call_) startTool(call);
            for (std::uint32_t i = run.first; i < run.first + run.count; ++i) {
                if (gripKnown_) result_.gripShare[i] = 0;
                if (loads_.samples[i].chipAreaMm2 <= 0) continue;
                if (gripKnown_) ask(run, i, held);
                if (held.centreIn(frontZ_)) pushCentre(run, loads_.samples[i]);
            }
        }
        if (byBoth) assume(tr("Cuts while the second spindle grips the part are not among these."));
        if (result_.centre) {
            assume(
                tr("At the centre the point's slope counts without friction, and the part as one thickness from jaws "
                   "to centre."));
        }
    }

    void startTool(std::uint32_t call) {
        call_ = call;
        result_.byTool.emplace_back();
    }

    void ask(const LoadRun& run, std::uint32_t index, const HeldPart& held) {
        constexpr double kMmPerM = 1000;
        const LoadSample& sample = loads_.samples[index];
        GripEstimate g;
        g.timedMove = run.timedMove;
        g.fraction = double{sample.fraction};
        g.revPerMin = revPerMinAt(timeline_.moves[run.timedMove], toolpath_, setup_, g.fraction);
        g.gripDiameterMm = 2 * hold_.flatRadius;
        // Of a bar that is not round the grip has to hold what its corners ask for at every turn, not the mean.
        g.turningN = kMmPerM * std::max(double{sample.torqueNm}, double{sample.torqueMostNm}) / hold_.flatRadius;
        g.axialPushN = -double{sample.forceZN};
        if (held.centreIn(frontZ_)) g.axialPushN += setup_.tailstock->forceN;
        const bool bySeat = seated_ && g.axialPushN > 0;
        g.heldN = std::hypot(g.turningN, bySeat ? 0 : g.axialPushN);
        g.friction = friction_;
        g.forceSafety = forceSafety_;
        g.speedSafety = speedSafety_;
        g.neededN = neededGripN(g.heldN, friction_, forceSafety_);
        const double pull = centrifugalN(moment_, g.revPerMin);
        const bool outside = chuck_.grip == Chuck::Grip::Outside;
        g.lostN = outside ? pull : -pull;
        g.standingN = chuck_.gripForceN;
        g.leftN = leftAtSpeedN(g.standingN, pull, chuck_.grip);
        g.neededStandingN = neededStandingN(g.neededN, pull, speedSafety_, chuck_.grip);
        if (outside && moment_ > 0) {
            g.permittedRevPerMin = std::min(permittedRevPerMin(g.standingN, g.neededN, moment_).value_or(0),
                                            revPerMinOfLoss(g.standingN, moment_, kGreatestLoss));
            if (chuck_.maxRevPerMin > 0) g.permittedRevPerMin = std::min(g.permittedRevPerMin, chuck_.maxRevPerMin);
        }
        result_.gripShare[index] = static_cast<float>(g.neededStandingN / g.standingN);
        g.overhangMm = std::max(0.0, double{sample.atZ} - chuck_.jawLength);
        if (g.neededStandingN > result_.byTool.back().neededStandingN) result_.byTool.back() = g;
    }

    // The centre takes a share of the force across the axis, as a support of a clamped beam does.
    void pushCentre(const LoadRun& run, const LoadSample& sample) {
        const double length = frontZ_ - chuck_.jawLength;
        if (length <= 0) return;
        const Beam even({0, length}, {1});
        const double share = even.supportShare(double{sample.atZ} - chuck_.jawLength, length);
        CentrePush push;
        push.timedMove = run.timedMove;
        push.fraction = double{sample.fraction};
        push.axialN = std::max(0.0, double{sample.forceZN});
        push.wedgeN =
            share * std::hypot(std::max(double{sample.cuttingN}, double{sample.cuttingMostN}), double{sample.forceRN}) *
            std::tan(setup_.tailstock->centreAngle / 2);
        if (!result_.centre || push.pushN() > result_.centre->pushN()) result_.centre = push;
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const Chuck& chuck_;
    const LoadResult& loads_;
    JawHold hold_;
    double frontZ_ = 0;
    bool gripKnown_ = false, seated_ = false;
    double moment_ = 0;  // of all jaws, kg m; 0 for a collet
    double friction_ = 0, forceSafety_ = 0, speedSafety_ = 0;
    std::uint32_t call_ = 0xffffffffu;
    HoldingResult result_;
};

}  // namespace

HoldingResult estimateHolding(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                              const std::shared_ptr<const StockHistory>& stock, const LoadResult& loads) {
    return Holding(timeline, toolpath, setup, stock, loads).estimate();
}

}  // namespace firstoff
