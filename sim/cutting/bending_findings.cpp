#include "sim/cutting/bending_findings.h"

#include <cmath>

#include "sim/base/say.h"
#include "sim/cutting/cut_finding.h"

namespace firstoff {

namespace {

const char* madeOf(Tool::Shank shank) {
    switch (shank) {
        case Tool::Shank::Steel:
            return tr("steel");
        case Tool::Shank::Carbide:
            return tr("carbide");
        case Tool::Shank::Damped:
            return tr("damped steel");
        case Tool::Shank::DampedCarbide:
            return tr("damped carbide");
    }
    return "";
}

class Saying {
public:
    Saying(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, const LoadResult& loads,
           BendingResult& result)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), loads_(loads), result_(result) {}

    void report() {
        std::vector<bool> barSaid(setup_.tools.size(), false);
        for (const ToolBending& bending : result_.tools) {
            const int index = toolpath_.calls[bending.call].toolIndex;
            if (index < 0) continue;
            const auto i = static_cast<std::size_t>(index);
            if (bending.overhangRatio > 0 && !barSaid[i]) barSaid[i] = barTooLong(bending, setup_.tools[i]);
            if (bending.finishes) offSize(bending, setup_.tools[i]);
        }
    }

private:
    Finding& at(std::uint32_t timedMove, double fraction, Severity severity, const char* code) {
        return result_.findings.emplace_back(
            cutFinding(timeline_, toolpath_, setup_, timedMove, fraction, severity, code));
    }

    double workZ(const BentPlace& place) const {
        return place.z - toolpath_.datumOf(toolpath_.moves[timeline_.moves[place.timedMove].move]).z;
    }

    bool barTooLong(const ToolBending& bending, const Tool& tool) {
        const BarLimit limit = barLimit(tool.shank);
        if (bending.overhangRatio <= limit.noteAbove + 1e-9) return false;
        const LoadRun* first = nullptr;
        for (const LoadRun& run : loads_.runs) {
            if (toolpath_.moves[timeline_.moves[run.timedMove].move].call != bending.call) continue;
            first = &run;
            break;
        }
        if (first == nullptr) return false;
        const bool far = bending.overhangRatio > limit.warningAbove + 1e-9;
        Finding& finding = at(first->timedMove, 0, far ? Severity::Warning : Severity::Note, "boring-bar-overhang");
        finding.message = say(
            "The bar of {} stands out {:.1f} mm, {:.1f} times its diameter of {:.1f} mm. Bars of {} are for up to {:g} "
            "times{}: it springs and chatters sooner.",
            toolWord(toolpath_.calls[bending.call]), tool.overhang, bending.overhangRatio, barDiameterMm(tool),
            madeOf(tool.shank), limit.noteAbove,
            tool.shank == Tool::Shank::Steel ? tr(" (a maker's catalogue)") : tr(" (a page on boring bars)"));
        finding.remedy =
            tool.shank == Tool::Shank::Steel
                ? tr("Clamp it shorter, take a thicker bar, or one of carbide (write shank = \"carbide\").")
                : tr("Clamp it shorter or take a thicker bar.");
        finding.values = {{"overhang_mm", tool.overhang}, {"times_diameter", bending.overhangRatio}};
        return true;
    }

    void offSize(const ToolBending& bending, const Tool& tool) {
        const BentPlace &greatest = bending.greatest, &least = bending.least;
        const double most = std::abs(greatest.errorMm);
        if (most < kBentNoteMm) return;
        const float fraction = loads_.samples[greatest.sample].fraction;
        Finding& finding = at(greatest.timedMove, double{fraction},
                              most > kBentWarningMm ? Severity::Warning : Severity::Note, "finish-bends-away");
        const bool bar = isBar(tool) && bending.barShare > 0.5;
        finding.message = say(
            "{} gives way under the last cut of {}: at Z{:.3f} the diameter comes out {:.3f} mm {} than programmed, at "
            "Z{:.3f} {:.3f} mm {}. {}",
            bar ? tr("The boring bar") : tr("The part"), toolWord(toolpath_.calls[bending.call]), workZ(greatest), most,
            greatest.errorMm > 0 ? tr("larger") : tr("smaller"), workZ(least), std::abs(least.errorMm),
            least.errorMm >= 0 ? tr("larger") : tr("smaller"), shape(bending));
        finding.remedy =
            bar ? tr("Take the last cut lighter or twice (a spring pass), or stiffen the bar; what is alike "
                     "all along goes with the offset. An estimate: gauge the first part.")
                : tr("Take the last cut lighter, with a smaller nose or an edge nearer to square, hold the "
                     "part shorter or bring up a centre. An estimate: gauge the first part.");
        finding.values = {{"diameter_error_mm", greatest.errorMm},
                          {"least_error_mm", least.errorMm},
                          {"radial_force_n", double{loads_.samples[greatest.sample].forceRN}}};
    }

    static std::string shape(const ToolBending& bending) {
        const double spread = std::abs(bending.spreadMm());
        if (spread < kBentNoteMm / 2) return tr("That is nearly alike everywhere: an offset takes it out.");
        return say("No offset takes out the difference of {:.3f} mm between them.", spread);
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const LoadResult& loads_;
    BendingResult& result_;
};

}  // namespace

BarLimit barLimit(Tool::Shank shank) {
    switch (shank) {
        case Tool::Shank::Steel:
            return {4, 6};
        case Tool::Shank::Carbide:
            return {6, 7};
        case Tool::Shank::Damped:
            return {7, 10};
        case Tool::Shank::DampedCarbide:
            return {10, 14};
    }
    return {};
}

void addBendingFindings(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, const LoadResult& loads,
                        BendingResult& result) {
    Saying(timeline, toolpath, setup, loads, result).report();
}

}  // namespace firstoff
