#include "sim/output/comparison_report.h"

#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "sim/base/say.h"
#include "sim/output/gauge_report.h"
#include "sim/output/table_figures.h"
#include "sim/output/tables.h"
#include "sim/output/text_report.h"

namespace firstoff {

namespace {

constexpr double kSameShare = 1e-9;  // of times and loads: rounding
constexpr std::size_t kMostSurfaces = 40;

bool same(double a, double b) {
    return std::abs(a - b) <= kSameShare * std::max(std::abs(a), std::abs(b));
}

std::string sizeLine(const SizeChange& size, const GaugedDimension& dimension) {
    std::string text = say("{}: {} before, {} now", size.name, sizeInWords(dimension, size.before),
                           sizeInWords(dimension, size.after));
    if (size.stateBefore != size.stateAfter) {
        text += say(" ({} before, {} now)", stateInWords(size.stateBefore), stateInWords(size.stateAfter));
    } else {
        text += fmt::format(" ({})", stateInWords(size.stateAfter));
    }
    return text;
}

void appendSurfaces(std::string& text, const Trial& after, const Comparison& c) {
    if (c.surfaces.empty()) {
        text += tr("On the part nothing moved.\n");
        return;
    }
    text += tr("On the part:\n");
    std::size_t told = 0;
    for (const SurfaceChange& change : c.surfaces) {
        if (told++ == kMostSurfaces) break;
        text += "  " + surfaceChangeInWords(after, change) + "\n";
    }
    if (c.surfaces.size() > kMostSurfaces) text += say("  and {} places more\n", c.surfaces.size() - kMostSurfaces);
}

void appendFindings(std::string& text, const Trial& before, const Trial& after, const Comparison& c) {
    if (c.findings.empty()) {
        text += tr("The findings are the same.\n");
        return;
    }
    for (const bool gone : {true, false}) {
        std::vector<Finding> some;
        for (const FindingChange& change : c.findings) {
            if (change.gone == gone) some.push_back(change.finding);
        }
        if (some.empty()) continue;
        const Trial& of = gone ? before : after;
        text += gone ? tr("Gone:\n") : tr("New:\n");
        text += textFindings(some, of.program, of.setup.name, {});
    }
}

}  // namespace

std::string timeChangeInWords(double beforeS, double afterS) {
    if (same(beforeS, afterS)) return tr("the same");
    const double more = afterS - beforeS;
    std::string text = fmt::format("{}{}", more > 0 ? "+" : "-", durationInWords(std::abs(more)));
    if (beforeS > 0) text += fmt::format(" ({:+.1f} %)", 100 * more / beforeS);
    return text;
}

std::string surfaceChangeInWords(const Trial& after, const SurfaceChange& change, const LengthUnit& unit) {
    const double datum = sectionDatum(after).z;
    const auto place = [&](double z) { return fmt::format("{:.{}f}", (z - datum) / unit.mm, unit.decimals); };
    const auto much = [&](double mm, int decimals) {
        return fmt::format("{:.{}f} {}", std::abs(mm) / unit.mm, decimals, unit.name);
    };
    const bool outside = change.side == SurfaceChange::Side::Outside;
    std::string text = change.piece > 0 ? say("piece {}, ", change.piece) : std::string();
    if (change.isFace) {
        const std::string z = place(change.place.z), along = much(change.alongMm, unit.decimals - 1);
        const bool more = change.amountMm > 0;
        text += outside && more ? say("shoulder or end near Z{}: {} more metal along Z", z, along)
                : outside       ? say("shoulder or end near Z{}: {} less metal along Z", z, along)
                : more          ? say("shoulder in the bore near Z{}: {} more metal along Z", z, along)
                                : say("shoulder in the bore near Z{}: {} less metal along Z", z, along);
    } else {
        const bool larger = outside == (change.amountMm > 0);
        const std::string from = place(change.toZ), to = place(change.fromZ),
                          by = much(2 * change.amountMm, unit.decimals + 1);
        text += outside && larger ? say("outside Z{} to Z{}: {} larger in diameter", from, to, by)
                : outside         ? say("outside Z{} to Z{}: {} smaller in diameter", from, to, by)
                : larger          ? say("bore Z{} to Z{}: {} larger in diameter", from, to, by)
                                  : say("bore Z{} to Z{}: {} smaller in diameter", from, to, by);
    }
    if (change.block != kNoBlock) text += fmt::format(" ({})", after.program.lineName(change.block));
    return text;
}

std::string comparisonReport(const Trial& before, const Trial& after, const Comparison& c) {
    std::string text = say("{} on {}, before\n{} on {}, now\n", before.program.name, before.setup.name,
                           after.program.name, after.setup.name);
    text += say("Verdict: {} before, {} now.\n", tr(name(before.verdict)), tr(name(after.verdict)));
    if (!c.sameBlank) text += tr("The blanks differ, so surfaces differ where no tool has been.\n");
    appendSurfaces(text, after, c);
    if (!c.sizes.empty()) {
        text += after.gauged.bendingKnown ? tr("Sizes to be expected, bending counted:\n")
                                          : tr("Sizes by the paths of the tools, bending not known:\n");
    }
    for (const SizeChange& size : c.sizes) {
        text += "  " + sizeLine(size, after.gauged.dimensions[size.dimension]) + "\n";
    }
    text += say("Cycle: {} before, {} now: {}.\n", durationInWords(c.cycleBeforeS), durationInWords(c.cycleAfterS),
                timeChangeInWords(c.cycleBeforeS, c.cycleAfterS));
    text +=
        say("Metal removed: {:.2f} cm3 before, {:.2f} cm3 now.\n", c.removedBeforeMm3 / 1000, c.removedAfterMm3 / 1000);
    if (c.peakNBefore > 0 || c.peakNAfter > 0) {
        text += say("Greatest cutting force {:.0f} N before, {:.0f} N now; power {:.2f} kW before, {:.2f} now.\n",
                    c.peakNBefore, c.peakNAfter, c.peakKwBefore, c.peakKwAfter);
    }
    if (c.piecesBefore != c.piecesAfter)
        text += say("Pieces cut off: {} before, {} now.\n", c.piecesBefore, c.piecesAfter);
    appendFindings(text, before, after, c);
    text += fmt::format("\n{}\n", standingCaution());
    return text;
}

}  // namespace firstoff
