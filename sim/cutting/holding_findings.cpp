#include "sim/cutting/holding_findings.h"

#include <cmath>

#include "sim/base/say.h"
#include "sim/cutting/chuck_grip.h"
#include "sim/cutting/cut_finding.h"

namespace firstoff {

namespace {

double kilo(double n) {
    return n / 1000;
}

class Saying {
public:
    Saying(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, HoldingResult& result)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), result_(result) {}

    void report() {
        for (const GripEstimate& grip : result_.byTool) {
            if (!grip.holds()) tooSmall(grip);
        }
        if (result_.grip && result_.grip->holds()) littleReserve(*result_.grip);
        if (result_.speed && result_.speed->lossShare > kGreatestLoss) speedTakesGrip(*result_.speed);
        if (result_.centre && setup_.tailstock->forceN > 0 && result_.centre->pushN() > setup_.tailstock->forceN) {
            centrePushed(*result_.centre);
        }
        if (!result_.missing.empty() && someSaid()) notReckoned();
    }

private:
    Finding& at(std::uint32_t timedMove, double fraction, Severity severity, const char* code) {
        return result_.findings.emplace_back(
            cutFinding(timeline_, toolpath_, setup_, timedMove, fraction, severity, code));
    }

    std::string tool(std::uint32_t timedMove) const {
        const ToolCall& call = toolpath_.calls[toolpath_.moves[timeline_.moves[timedMove].move].call];
        return toolWord(call);
    }

    static std::string heldInWords(const GripEstimate& g) {
        std::string text =
            say("{:.0f} N round the diameter of {:.2f} mm that is gripped", g.turningN, g.gripDiameterMm);
        if (std::abs(g.axialPushN) >= 1) {
            const double push = std::abs(g.axialPushN);
            text += g.axialPushN > 0 ? say(" and {:.0f} N towards the chuck", push)
                                     : say(" and {:.0f} N out of the chuck", push);
        }
        return text;
    }

    void tooSmall(const GripEstimate& g) {
        Finding& finding =
            at(g.timedMove, g.fraction, g.allLost() ? Severity::Stop : Severity::Warning, "grip-too-small");
        finding.message = say(
            "The cut of {} asks the grip to hold {}. With friction {:.2f}, factors {:.1f} against the force and {:.1f} "
            "against the speed, at {:.0f} rev/min, that takes {:.1f} kN standing (method of VDI 3106); {} {}",
            tool(g.timedMove), heldInWords(g), g.friction, g.forceSafety, g.speedSafety, g.revPerMin,
            kilo(g.neededStandingN), gripInWords(g), howFarOff(g));
        finding.remedy =
            std::string(tr("Take less depth or feed there, turn slower, or set more grip where chuck and part "
                           "stand it. ")) +
            tr(kGripCaution);
        finding.values = {{"held_n", g.heldN},
                          {"needed_standing_kn", kilo(g.neededStandingN)},
                          {"standing_kn", kilo(g.standingN)},
                          {"left_kn", kilo(g.leftN)},
                          {"permitted_rev_per_min", g.permittedRevPerMin}};
    }

    // Where jaws grip from inside, speed adds to the grip.
    static std::string gripInWords(const GripEstimate& g) {
        const double standing = kilo(g.standingN), left = kilo(g.leftN);
        return g.lostN >= 0
                   ? say("the chuck is set to {:.1f} kN, of which {:.1f} kN are left at that speed.", standing, left)
                   : say("the chuck is set to {:.1f} kN, of which {:.1f} kN act at that speed.", standing, left);
    }

    static std::string howFarOff(const GripEstimate& g) {
        const double slip = g.leftN * g.friction;
        if (g.allLost()) return tr("The speed takes all of it: the part comes out of the jaws.");
        if (slip < g.heldN) return tr("Without any factor too it slips: the part may turn in the jaws or come out.");
        if (g.leftN < g.neededN) return say("It holds {:.1f} times the force, no more.", slip / g.heldN);
        return tr("At speed the cut is held with its factor; what is short is the reserve against the loss at speed.");
    }

    void littleReserve(const GripEstimate& g) {
        const bool overhung = g.overhangMm > g.gripDiameterMm && !result_.centre;
        const double wanted = overhung ? kWantedForceSafetyOverhung : kWantedForceSafety;
        const double has = g.heldN > 0 ? g.leftN * g.friction / g.heldN : wanted;
        if (has >= wanted) return;
        Finding& finding = at(g.timedMove, g.fraction, Severity::Note, "grip-little-reserve");
        finding.message =
            overhung
                ? say("The grip holds {:.1f} times what the cut of {} asks for, {:.1f} mm in front of the jaws. A "
                      "maker "
                      "of chucks wants {:.1f} times where the cut is farther out than the part is thick at the grip.",
                      has, tool(g.timedMove), g.overhangMm, wanted)
                : say("The grip holds {:.1f} times what the cut of {} asks for, {:.1f} mm in front of the jaws. A "
                      "maker "
                      "of chucks wants {:.1f} times wherever that can be had.",
                      has, tool(g.timedMove), g.overhangMm, wanted);
        finding.remedy = std::string(tr("Watch this cut on the first part, or take it lighter. ")) + tr(kGripCaution);
        finding.values = {{"times_held", has}, {"times_wanted", wanted}};
    }

    void speedTakesGrip(const SpeedOfGrip& s) {
        const bool all = s.lossShare >= 1;
        Finding& finding = at(s.timedMove, s.fraction, all ? Severity::Stop : Severity::Warning, "speed-takes-grip");
        finding.message = say(
            "At {:.0f} rev/min the jaws pull outwards with {:.0f} % of the standing grip of {:.1f} kN; at most 67 % "
            "may be lost (DIN EN 1550). With these jaws that is reached at {:.0f} rev/min.",
            s.revPerMin, 100 * s.lossShare, kilo(setup_.chuck.gripForceN), s.permittedRevPerMin);
        if (all) finding.message += tr(" No grip is left there: the part comes out of the jaws.");
        finding.remedy =
            std::string(tr("Clamp the speed (G50 S) below that, take lighter jaws, or set them farther in. ")) +
            tr(kGripCaution);
        finding.values = {{"rev_per_min", s.revPerMin},
                          {"loss_percent", 100 * s.lossShare},
                          {"permitted_rev_per_min", s.permittedRevPerMin}};
    }

    void centrePushed(const CentrePush& c) {
        Finding& finding = at(c.timedMove, c.fraction, Severity::Warning, "centre-pushed-back");
        finding.message = say(
            "The cut of {} pushes the centre back with {:.0f} N ({:.0f} N along the part, {:.0f} N by the slope of the "
            "point), and the tailstock holds it with {:.0f} N.",
            tool(c.timedMove), c.pushN(), c.axialN, c.wedgeN, setup_.tailstock->forceN);
        finding.remedy =
            tr("Push the centre up harder as far as part and bearings stand it, or take the cut lighter. "
               "An estimate: the machine's manual and authorised people decide.");
        finding.values = {{"push_n", c.pushN()}, {"force_n", setup_.tailstock->forceN}};
    }

    // The set-up gives figures that are for nothing else.
    bool someSaid() const {
        const Chuck& c = setup_.chuck;
        return c.gripForceN > 0 || c.jawMassKg > 0 || c.jawMassRadius > 0 || c.baseJawMomentKgM || c.friction > 0 ||
               c.forceSafety > 0 || c.speedSafety > 0;
    }

    void notReckoned() {
        Finding& finding = result_.findings.emplace_back();
        finding.code = "grip-not-reckoned";
        finding.span.file = SourceSpan::File::Setup;
        finding.message = tr("Whether grip and centre hold the part was not reckoned in full.");
        finding.remedy = tr("Add to the set-up: ");
        for (std::size_t i = 0; i < result_.missing.size(); ++i) {
            finding.remedy += (i > 0 ? "; " : "") + result_.missing[i];
        }
        finding.remedy += ".";
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    HoldingResult& result_;
};

}  // namespace

void addHoldingFindings(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, HoldingResult& result) {
    Saying(timeline, toolpath, setup, result).report();
}

}  // namespace firstoff
