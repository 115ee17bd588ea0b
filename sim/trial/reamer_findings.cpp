// Reamers: the hole before them must be a little smaller than they are, no more and no less.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/stock/billet_columns.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr int kLooks = 400;  // places along the hole

// The narrowest place of the hole from a depth to its mouth.
struct Narrowest {
    double radius = 0;
    double z = 0;
};

std::optional<Narrowest> narrowestFrom(const StockCursor& cursor, double deepZ, double mouthZ) {
    std::optional<Narrowest> narrowest;
    for (int look = 0; look <= kLooks; ++look) {
        const double z = deepZ + (mouthZ - deepZ) * look / kLooks;
        const Interval metal = cursor.outermostAt(z);
        if (metal.outer <= 0) continue;
        if (!narrowest || metal.inner < narrowest->radius) narrowest = Narrowest{metal.inner, z};
    }
    return narrowest;
}

// A feed into the bar, by a reamer.
bool reams(const Machining& m, std::size_t i) {
    const Tool* tool = toolAt(m, i);
    if (tool == nullptr || tool->kind != ToolKind::Reamer || m.timeline.moves[i].kind != MoveKind::Feed) return false;
    return tipTo(m, i).z < tipFrom(m, i).z && tipTo(m, i).z < m.setup.stock.frontZ;
}

std::optional<Finding> judge(const Machining& m, std::size_t i, const Narrowest& hole) {
    const Tool& tool = *toolAt(m, i);
    const double radius = tool.diameter / 2;
    const double front = radius - tool.chamferLength * std::tan(tool.chamferAngle);
    const double takes = 2 * (radius - hole.radius), may = 2 * tool.reamingAllowance;
    const double work = hole.z - m.toolpath.datumOf(moveAt(m, i)).z;
    if (hole.radius < front - tolerance::kTouchMm) {
        Finding finding = findingAt(m, i, Severity::Stop, "reamer-into-solid");
        finding.message = say(
            "Reamer {} meets solid metal: near Z{:.3f} the hole is {:.3f} mm wide, the front of the reamer {:.3f} mm, "
            "and it does not cut there.",
            toolWord(m, i), work, 2 * hole.radius, 2 * front);
        finding.remedy = say("Drill to about {:g} mm first, and deeper than the reamer goes.", tool.diameter - may);
        finding.values = {{"hole_mm", 2 * hole.radius}, {"front_mm", 2 * front}};
        return finding;
    }
    if (takes > may + 2 * tolerance::kTouchMm) {
        Finding finding = findingAt(m, i, Severity::Warning, "reamer-takes-too-much");
        finding.message =
            say("Reamer {} has {:.3f} mm to take on the diameter near Z{:.3f}; it is made for {:g} mm at most.",
                toolWord(m, i), takes, work, may);
        finding.remedy = say("Drill or bore to about {:g} mm first.", tool.diameter - may);
        finding.values = {{"takes_mm", takes}, {"allowance_mm", may}};
        return finding;
    }
    if (takes > tolerance::kTouchMm) return std::nullopt;
    Finding finding = findingAt(m, i, Severity::Warning, "hole-not-reamed");
    finding.message = say("Reamer {} takes nothing: the hole is {:.3f} mm wide already, the reamer {:g} mm.",
                          toolWord(m, i), 2 * hole.radius, tool.diameter);
    finding.remedy = say("Leave it something to cut: up to {:g} mm on the diameter.", may);
    finding.values = {{"hole_mm", 2 * hole.radius}, {"reamer_mm", tool.diameter}};
    return finding;
}

}  // namespace

std::vector<Finding> reamerFindings(const Machining& m) {
    std::vector<Finding> findings;
    std::optional<StockCursor> cursor;
    int told = -1;  // one finding per tool call
    for (std::size_t i = 0; i < m.timeline.moves.size(); ++i) {
        if (!reams(m, i) || static_cast<int>(moveAt(m, i).call) == told) continue;
        if (!cursor) cursor.emplace(m.stock);
        cursor->seek(static_cast<std::uint32_t>(i), 0);
        const auto hole = narrowestFrom(*cursor, tipTo(m, i).z, std::min(tipFrom(m, i).z, m.setup.stock.frontZ));
        if (!hole) continue;
        told = static_cast<int>(moveAt(m, i).call);
        if (const auto finding = judge(m, i, *hole)) findings.push_back(*finding);
    }
    return findings;
}

}  // namespace firstoff
