// Edges off centre height: what the diameter comes out wrong by, and what is left at the centre.
//
// An edge at the height h, fed to x from the axis, cuts at sqrt(x² + h²): a diameter too large by
// 2 (sqrt(x² + h²) - x), and at the centre a pip 2 h across (elementary geometry). A drill that stands h beside the
// axis bores out to R + h.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "sim/base/say.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

// Heights that are told of; common practice to set to a tenth, no source. Drills are set closer.
constexpr double kEdgeMm = 0.1;
constexpr double kDrillMm = 0.05;
// Errors of the diameter that are told of, and from where they count as a fault.
constexpr double kNotedMm = 0.005;
constexpr double kWrongMm = 0.02;

struct Nearest {
    std::size_t timed = 0;
    double r = 0;  // of the tip
};

Finding drillFinding(const Machining& m, std::size_t i, const Tool& tool) {
    const double h = std::abs(tool.centreHeight);
    Finding finding = findingAt(m, i, Severity::Warning, "drill-off-centre-height");
    finding.message =
        say("Tool {} stands {:.3f} mm off the height of the axis: it bores up to {:.3f} mm too large (here it is drawn "
            "on the axis), or breaks.",
            toolWord(m, i), h, 2 * h);
    finding.remedy = tr("Set the turret or the block to the height of the axis, and centre_height_mm to what is left.");
    finding.values = {{"height_mm", tool.centreHeight}, {"oversize_mm", 2 * h}};
    return finding;
}

std::vector<Finding> edgeFinding(const Machining& m, const Nearest& nearest, const Tool& tool) {
    const double h = std::abs(tool.centreHeight);
    const bool toTheCentre = nearest.r <= h && tipFromNoseCentre(tool.tipNumber).r <= 0;
    const double x = std::max(0.0, nearest.r);
    const double error = 2 * (std::sqrt(x * x + h * h) - x);
    if (!toTheCentre && error < kNotedMm) return {};
    const bool wrong = toTheCentre || error >= kWrongMm;
    Finding finding = findingAt(m, nearest.timed, wrong ? Severity::Warning : Severity::Note, "edge-off-centre-height");
    finding.values = {{"height_mm", tool.centreHeight}};
    const std::string who = toolWord(m, nearest.timed);
    const bool above = tool.centreHeight > 0;
    if (toTheCentre) {
        finding.message = above ? say("Tool {} cuts to the centre with its edge {:.3f} mm above it: a pip of {:.3f} mm "
                                      "is left, whatever X it is fed to.",
                                      who, h, 2 * h)
                                : say("Tool {} cuts to the centre with its edge {:.3f} mm below it: a pip of {:.3f} mm "
                                      "is left, whatever X it is fed to.",
                                      who, h, 2 * h);
        finding.values.emplace_back("pip_mm", 2 * h);
    } else {
        finding.message = above ? say("The edge of tool {} stands {:.3f} mm above the centre: at the smallest diameter "
                                      "it cuts, {:.3f} mm, the part comes out {:.3f} mm too large.",
                                      who, h, 2 * x, error)
                                : say("The edge of tool {} stands {:.3f} mm below the centre: at the smallest diameter "
                                      "it cuts, {:.3f} mm, the part comes out {:.3f} mm too large.",
                                      who, h, 2 * x, error);
        finding.values.emplace_back("oversize_mm", error);
    }
    finding.remedy = tr("Set the edge to centre height, or correct centre_height_mm.");
    return {finding};
}

}  // namespace

std::vector<Finding> centreHeightFindings(const Machining& m) {
    std::map<std::uint32_t, Nearest> nearest;  // by tool call
    for (std::size_t i = 0; i < m.timeline.moves.size(); ++i) {
        const Tool* tool = toolAt(m, i);
        if (tool == nullptr || !isAtFeed(m.timeline.moves[i].kind) || !takesMetal(m, i)) continue;
        if (std::abs(tool->centreHeight) <= (worksOnTheAxis(tool->kind) ? kDrillMm : kEdgeMm)) continue;
        const Nearest here{i, std::min(tipFrom(m, i).r, tipTo(m, i).r)};
        const auto [known, added] = nearest.try_emplace(moveAt(m, i).call, here);
        if (!added && here.r < known->second.r) known->second = here;
    }
    std::vector<Finding> findings;
    for (const auto& [call, place] : nearest) {
        const Tool& tool = *toolAt(m, place.timed);
        if (worksOnTheAxis(tool.kind)) {
            findings.push_back(drillFinding(m, place.timed, tool));
            continue;
        }
        for (Finding& finding : edgeFinding(m, place, tool)) findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace firstoff
