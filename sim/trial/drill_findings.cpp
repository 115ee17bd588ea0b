// Drills and reamers that go deeper than their flutes are long: the chips have no way out.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/stock/billet_columns.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

// The drill of a feed move that takes metal.
const Tool* drilling(const Machining& m, std::size_t i) {
    const TimedMove& timed = m.timeline.moves[i];
    if (timed.kind != MoveKind::Feed || m.stock->cuts()[i].deepestMm <= tolerance::kTouchMm) return nullptr;
    const int tool = m.toolpath.calls[m.toolpath.moves[timed.move].call].toolIndex;
    if (tool < 0) return nullptr;
    const ToolKind kind = m.setup.tools[tool].kind;
    return worksOnTheAxis(kind) && kind != ToolKind::Tap ? &m.setup.tools[tool] : nullptr;
}

double frontOf(const StockCursor& cursor) {
    constexpr double kNearEnoughMm = 0.01;
    double front = -1e9;
    for (const Loop& loop : cursor.section(kNearEnoughMm, kEnvelope)) {
        if (loop.piece != 0) continue;
        for (Point p : loop.points) front = std::max(front, p.z);
    }
    return front;
}

Finding describe(const Machining& m, std::size_t i, const Tool& tool, double depth) {
    const TimedMove& timed = m.timeline.moves[i];
    const Move& move = m.toolpath.moves[timed.move];
    const ToolCall& call = m.toolpath.calls[move.call];
    Finding finding;
    finding.severity = Severity::Warning;
    finding.code = "drill-deeper-than-flutes";
    finding.span = m.program.span(move.block);
    finding.timeS = timed.t1;
    finding.place = timed.to + m.toolpath.tipShift(move);
    finding.values = {{"depth_mm", depth}, {"flute_length_mm", tool.fluteLength}};
    finding.message = say(
        "Drill T{:02d}{:02d} goes {:.3f} mm deep, its flutes are {:g} mm long: the chips have no way out of the hole.",
        call.station, call.offset, depth, tool.fluteLength);
    finding.remedy = tr("Drill less deep, take a longer drill, or correct flute_length_mm in the set-up.");
    return finding;
}

}  // namespace

std::vector<Finding> drillFindings(const Machining& m) {
    std::vector<Finding> findings;
    std::optional<StockCursor> cursor;
    int lastCall = -1;  // one finding per tool call, at the first move too deep
    for (std::size_t i = 0; i < m.timeline.moves.size(); ++i) {
        const Tool* tool = drilling(m, i);
        if (tool == nullptr) continue;
        const TimedMove& timed = m.timeline.moves[i];
        const Move& move = m.toolpath.moves[timed.move];
        const double tip = std::min(timed.from.z, timed.to.z) + m.toolpath.tipShift(move).z;
        const bool mayBe = m.setup.stock.frontZ - tip > tool->fluteLength + tolerance::kTouchMm;
        if (!mayBe || move.call == lastCall) continue;
        if (!cursor) cursor.emplace(m.stock);
        cursor->seek(static_cast<std::uint32_t>(i), 0);
        const double depth = frontOf(*cursor) - tip;
        if (depth <= tool->fluteLength + tolerance::kTouchMm) continue;
        lastCall = move.call;
        findings.push_back(describe(m, i, *tool, depth));
    }
    return findings;
}

}  // namespace firstoff
