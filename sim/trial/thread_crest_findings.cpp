// Full thread profiles turn the crests to size: they need something to take there, and not more than a little.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

// Radially; what is left on the blank for a full profile to top is 0.03 to 0.07 mm (common practice, no source).
constexpr double kMostToppedMm = 0.15;
constexpr int kLooks = 200;  // places along a thread

struct Pass {
    std::size_t first = 0;    // timed move, of the call's threads
    std::size_t deepest = 0;  // timed move
};

bool cutsFullThread(const Machining& m, std::size_t i) {
    const Tool* tool = toolAt(m, i);
    return tool != nullptr && tool->kind == ToolKind::Threading && tool->profile == ThreadProfile::Full &&
           m.timeline.moves[i].kind == MoveKind::Thread && mostlyAlongZ(tipTo(m, i) - tipFrom(m, i));
}

// How deep the tip goes below the crest that stands before the first pass, at its median along the pass: lead-in and
// run-out lie outside the thread.
std::optional<double> depthBelowCrest(const Machining& m, const StockCursor& cursor, std::size_t i, bool inside) {
    std::vector<double> depths;
    for (int look = 0; look <= kLooks; ++look) {
        const double share = static_cast<double>(look) / kLooks;
        const Point tip = tipFrom(m, i) + share * (tipTo(m, i) - tipFrom(m, i));
        const Interval metal = cursor.outermostAt(tip.z);
        if (metal.outer <= 0) continue;
        depths.push_back(inside ? tip.r - metal.inner : metal.outer - tip.r);
    }
    if (depths.empty()) return std::nullopt;
    std::nth_element(depths.begin(), depths.begin() + static_cast<std::ptrdiff_t>(depths.size() / 2), depths.end());
    return depths[depths.size() / 2];
}

}  // namespace

std::vector<Finding> threadCrestFindings(const Machining& m) {
    std::map<std::uint32_t, Pass> passes;  // by tool call
    for (std::size_t i = 0; i < m.timeline.moves.size(); ++i) {
        if (!cutsFullThread(m, i)) continue;
        const double out = toolAt(m, i)->inside ? -1 : 1;
        const auto [known, added] = passes.try_emplace(moveAt(m, i).call, Pass{i, i});
        if (!added && out * tipTo(m, i).r < out * tipTo(m, known->second.deepest).r) known->second.deepest = i;
    }
    std::vector<Finding> findings;
    std::optional<StockCursor> cursor;
    for (const auto& [call, pass] : passes) {
        if (!cursor) cursor.emplace(m.stock);
        cursor->seek(static_cast<std::uint32_t>(pass.first), 0);
        const Tool& tool = *toolAt(m, pass.deepest);
        const auto depth = depthBelowCrest(m, *cursor, pass.deepest, tool.inside);
        if (!depth || *depth <= tolerance::kTouchMm) continue;
        const double topped = *depth - tool.cuttingDepth;
        if (topped >= 0 && topped <= kMostToppedMm) continue;
        Finding finding = findingAt(m, pass.deepest, topped < 0 ? Severity::Note : Severity::Warning,
                                    topped < 0 ? "thread-crest-not-topped" : "thread-crest-topped-too-much");
        finding.message =
            topped < 0
                ? say("The full profile of tool {} ends {:.3f} mm short of its depth: the crests stay as they were "
                      "turned.",
                      toolWord(m, pass.deepest), -topped)
                : say("The full profile of tool {} takes {:.3f} mm off the crests, on radius; it is made to take a "
                      "few hundredths.",
                      toolWord(m, pass.deepest), topped);
        finding.remedy =
            say("Turn the crest {:g} mm, on radius, above the bottom of the thread, and about 0.05 mm "
                "more.",
                tool.cuttingDepth);
        finding.values = {{"topped_mm", topped}, {"profile_mm", tool.cuttingDepth}};
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace firstoff
