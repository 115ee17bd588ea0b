#include "sim/cutting/bending.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "sim/base/say.h"
#include "sim/cutting/bending_findings.h"
#include "sim/cutting/held_part.h"
#include "sim/cutting/jaw_hold.h"
#include "sim/cutting/last_cuts.h"
#include "sim/cutting/part_beam.h"

namespace firstoff {

namespace {

constexpr float kNotKnown = std::numeric_limits<float>::quiet_NaN();

// The part is looked at anew when this share of what stood out of the jaws at the start has gone since: with d^4 of a
// bar that is 4 % of its stiffness. And for each tool at its first cut, up to this many times.
constexpr double kChangedShare = 0.02;
constexpr int kMostLooksForTools = 64;
// Where a slide stands nearly still the chip is thin and pushes little, over a few µm of the way: with less than this
// share of the greatest feed of a move no place of it counts for a diameter.
constexpr double kFullShare = 0.9;

class Bending {
public:
    Bending(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
            const std::shared_ptr<const StockHistory>& stock, const LoadResult& loads, const BendingOptions& options)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), stock_(stock), loads_(loads), options_(options) {}

    BendingResult reckon() {
        listTools();
        takeFigures();
        if (loads_.forcesKnown && stock_) {
            result_.samples.resize(loads_.samples.size());
            cursor_.emplace(stock_, StockCursor::Detail::Envelope);
            lastCuts_ = lastCutsOf(stock_, *cursor_, timeline_.moves.size());
            HeldAlong along(timeline_, toolpath_, setup_);
            for (const LoadRun& run : loads_.runs) {
                if (options_.stop.stop_requested()) break;
                bend(run, along.at(run.timedMove));
            }
            if (byCentre_) assume(tr("A centre in the part holds its end, without play."));
            if (notByTheChuck_) assume(tr("Cuts while the second spindle grips the part are not reckoned."));
        }
        addBendingFindings(timeline_, toolpath_, setup_, loads_, result_);
        return std::move(result_);
    }

private:
    void assume(const char* what) { result_.assumed.emplace_back(what); }

    void listTools() {
        for (const ToolLoad& load : loads_.tools) {
            ToolBending& bending = result_.tools.emplace_back();
            bending.call = load.call;
            const Tool* tool = toolOf(load.call);
            if (tool == nullptr || !isBar(*tool)) continue;
            const double diameter = barDiameterMm(*tool);
            if (diameter > 0) bending.overhangRatio = tool->overhang / diameter;
            damped_ |= tool->shank == Tool::Shank::Damped || tool->shank == Tool::Shank::DampedCarbide;
        }
    }

    const Tool* toolOf(std::uint32_t call) const {
        const int index = toolpath_.calls[call].toolIndex;
        return index < 0 ? nullptr : &setup_.tools[static_cast<std::size_t>(index)];
    }

    void takeFigures() {
        if (!loads_.forcesKnown) {
            result_.missing.emplace_back(
                tr("what the bar is made of, with data for its cutting force: material in [stock]"));
        } else if (setup_.material.youngGPa <= 0) {
            result_.missing.emplace_back(tr("the modulus of elasticity of the material"));
        }
        result_.known = result_.missing.empty() && stock_ != nullptr;
        if (!result_.known) return;
        assume(
            tr("The part is clamped rigidly at the front of the jaws; chuck, slides, turret and outside tools do not "
               "give way, so that in truth it is a little more."));
        if (setup_.steadyRest) assume(tr("The steady rest holds the part where it stands, without play."));
        if (damped_) assume(tr("A damped bar bends as a solid one does."));
    }

    void bend(const LoadRun& run, const HeldPart& held) {
        const TimedMove& timed = timeline_.moves[run.timedMove];
        const Move& move = toolpath_.moves[timed.move];
        const Tool* tool = toolOf(move.call);
        if (tool == nullptr) return;
        if (!held.byTheChuck()) notByTheChuck_ = true;
        lookAt(run.timedMove, move.call, held);
        const double bar = isBar(*tool) ? barFlexibility(*tool) : 0;
        const Point way = timed.to - timed.from;
        const bool arc = timed.kind == MoveKind::ArcClockwise || timed.kind == MoveKind::ArcAnticlockwise;
        const bool leavesDiameter = arc || std::abs(way.z) > std::abs(way.r);
        const double fullFeed = greatestFeed(run);
        for (std::uint32_t i = run.first; i < run.first + run.count; ++i) {
            const LoadSample& load = loads_.samples[i];
            const Point tip = pointAt(timed, double{load.fraction}) + toolpath_.tipShift(move);
            const double part = held.byTheChuck() ? partFlexibility(double{load.atZ}) : kNotKnown;
            BendingSample& sample = result_.samples[i];
            sample.partMm = static_cast<float>(double{load.forceRN} * part);
            sample.barMm = static_cast<float>(-double{load.forceRN} * bar);
            if (!leavesDiameter || worksOnTheAxis(tool->kind) || load.chipAreaMm2 <= 0) {
                if (std::isnan(part)) sample.diameterErrorMm = kNotKnown;
                continue;
            }
            const double r = std::abs(tip.r), gives = part + bar;
            const double error = 2 * (std::hypot(r - double{load.forceRN} * gives, double{load.cuttingN} * gives) - r);
            sample.diameterErrorMm = static_cast<float>(error);
            const bool atFeed = feedMmPerRev(load) >= kFullShare * fullFeed;
            if (!run.mean && !isBlade(tool->kind) && load.leavesSurface && atFeed)
                onFinishedSurface(run, i, move.call, tip.z, error, gives > 0 ? bar / gives : 0);
        }
    }

    double greatestFeed(const LoadRun& run) const {
        double most = 0;
        for (std::uint32_t i = run.first; i < run.first + run.count; ++i) {
            most = std::max(most, feedMmPerRev(loads_.samples[i]));
        }
        return most;
    }

    // mm for each N; NaN where nothing is known of it.
    double partFlexibility(double z) const {
        if (setup_.material.youngGPa <= 0) return std::numeric_limits<double>::quiet_NaN();
        if (!part_) return 0;  // what is in the jaws
        const double at = z - part_->clampZ;
        if (supportAt_ <= 0) return part_->beam.clamped(at, at);
        return part_->beam.clampedAndSupported(at, at, supportAt_);
    }

    void lookAt(std::uint32_t timedMove, std::uint32_t call, const HeldPart& held) {
        if (setup_.material.youngGPa <= 0) return;
        for (; counted_ < timedMove; ++counted_) removed_ += double{stock_->cuts()[counted_].removedMm3};
        const bool newTool = call != call_ && looksForTools_ < kMostLooksForTools;
        const bool changed = removed_ - lookedAt_ > kChangedShare * stock_->startVolumeMm3();
        if (looked_ && !newTool && !changed) return support(held);
        looksForTools_ += newTool ? 1 : 0;
        looked_ = true;
        call_ = call;
        lookedAt_ = removed_;
        cursor_->seek(timedMove, 0);
        part_ = partBeam(cursor_->billet(), setup_.chuck.jawLength, setup_.material.youngGPa);
        support(held);
    }

    // Where a support stands, from the clamp; 0: none. With a steady rest and a centre the steady rest alone counts.
    void support(const HeldPart& held) {
        supportAt_ = 0;
        if (!part_) return;
        if (setup_.steadyRest && setup_.steadyRest->z > part_->clampZ && setup_.steadyRest->z < part_->frontZ) {
            supportAt_ = setup_.steadyRest->z - part_->clampZ;
        } else if (held.centreIn(part_->frontZ)) {
            supportAt_ = part_->beam.lengthMm();
            byCentre_ = true;
        }
    }

    void onFinishedSurface(const LoadRun& run, std::uint32_t sample, std::uint32_t call, double z, double error,
                           double barShare) {
        if (std::isnan(error) || !lastCuts_.stands(run.timedMove, z)) return;
        const auto bending = std::find_if(result_.tools.begin(), result_.tools.end(),
                                          [&](const ToolBending& t) { return t.call == call; });
        if (bending == result_.tools.end()) return;
        const BentPlace place{error, sample, run.timedMove, z};
        if (!bending->finishes || std::abs(error) > std::abs(bending->greatest.errorMm)) {
            bending->greatest = place;
            bending->barShare = barShare;
        }
        if (!bending->finishes || std::abs(error) < std::abs(bending->least.errorMm)) bending->least = place;
        bending->finishes = true;
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const std::shared_ptr<const StockHistory>& stock_;
    const LoadResult& loads_;
    const BendingOptions& options_;
    bool damped_ = false, notByTheChuck_ = false, byCentre_ = false;
    std::optional<StockCursor> cursor_;
    LastCuts lastCuts_;
    // The part as it was looked at last.
    std::optional<PartBeam> part_;
    double supportAt_ = 0;
    bool looked_ = false;
    int looksForTools_ = 0;
    std::uint32_t call_ = 0, counted_ = 0;
    double removed_ = 0, lookedAt_ = 0;  // mm³
    BendingResult result_;
};

}  // namespace

BendingResult reckonBending(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                            const std::shared_ptr<const StockHistory>& stock, const LoadResult& loads,
                            const BendingOptions& options) {
    return Bending(timeline, toolpath, setup, stock, loads, options).reckon();
}

bool isBar(const Tool& tool) {
    return standsAlongZ(tool) && !worksOnTheAxis(tool.kind) && !tool.face;
}

double barDiameterMm(const Tool& tool) {
    return tool.head && tool.head->shankWidth > 0 ? tool.head->shankWidth : tool.shankSize;
}

double barModulusGPa(Tool::Shank shank) {
    constexpr double kSteelGPa = 203.4, kCarbideGPa = 600;
    return shank == Tool::Shank::Carbide || shank == Tool::Shank::DampedCarbide ? kCarbideGPa : kSteelGPa;
}

double barFlexibility(const Tool& tool) {
    const double length = tool.overhang;
    return length * length * length / (3 * roundStiffness(barModulusGPa(tool.shank), barDiameterMm(tool)));
}

}  // namespace firstoff
