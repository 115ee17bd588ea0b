#include "sim/stock/cut_plan.h"

#include <algorithm>

#include "sim/stock/thread_zone.h"

namespace firstoff {

namespace {

// Whether a straight stretch may bring metal and tool together. Where the turret indexes, the new tool stands there at
// once, wherever that is.
bool meets(const TimedMove& timed) {
    if (timed.kind == MoveKind::Index) return true;
    return timed.kind != MoveKind::Dwell && !(timed.from == timed.to);
}

// The part does not turn then: what such a move takes off is not modelled, and the control has said so.
bool spindleIsAxis(const Move& move, const Toolpath& toolpath) {
    return move.extra != kNoExtra && toolpath.extras[move.extra].spindleIsAxis;
}

Sweep::Path pathOf(MoveKind kind) {
    if (kind == MoveKind::ArcClockwise) return Sweep::Path::ArcClockwise;
    if (kind == MoveKind::ArcAnticlockwise) return Sweep::Path::ArcAnticlockwise;
    return Sweep::Path::Line;
}

}  // namespace

CutPlan::CutPlan(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup)
    : heldZ_(setup.chuck.jawLength) {
    for (const Tool& tool : setup.tools) {
        shapes_.push_back(toolShape(tool.cutting, tool.centreHeight));
        holders_.push_back(toolShape(tool.holder));
    }
    for (const ToolCall& call : toolpath.calls) tips_.push_back(call.tip);
    steps_.reserve(timeline.moves.size());
    tools_.reserve(timeline.moves.size());
    const std::vector<ThreadPart> threads = threadParts(timeline, toolpath, setup);
    for (const TimedMove& timed : timeline.moves) {
        const Move& move = toolpath.moves[timed.move];
        const ToolCall& call = toolpath.calls[move.call];
        if (steps_.empty() || !(steps_.back().to == timed.from)) {
            starts_.push_back({static_cast<std::uint32_t>(steps_.size()), timed.from});
        }
        Step step;
        step.to = timed.to;
        step.call = move.call;
        step.path = pathOf(timed.kind);
        step.meets = (step.path != Sweep::Path::Line || meets(timed)) && !spindleIsAxis(move, toolpath);
        step.onlyMeasured = threads[steps_.size()] != ThreadPart::None;
        if (step.path != Sweep::Path::Line) {
            step.centre = static_cast<std::uint32_t>(centres_.size());
            centres_.push_back(timed.centre);
        }
        steps_.push_back(step);
        const bool known = call.toolIndex >= 0 && static_cast<std::size_t>(call.toolIndex) < setup.tools.size();
        tools_.push_back(known ? static_cast<std::uint16_t>(call.toolIndex) : kNoTool);
    }
}

Point CutPlan::start(std::uint32_t move) const {
    const auto at = std::lower_bound(starts_.begin(), starts_.end(), move,
                                     [](const Start& start, std::uint32_t m) { return start.move < m; });
    if (at != starts_.end() && at->move == move) return at->from;
    return steps_[move - 1].to;
}

Sweep CutPlan::sweep(std::uint32_t move) const {
    const Step& step = steps_[move];
    const Point tip = tips_[step.call];
    Sweep sweep{start(move) + tip, step.to + tip, {}, step.path};
    if (step.path != Sweep::Path::Line) sweep.centre = centres_[step.centre] + tip;
    return sweep;
}

std::size_t CutPlan::bytes() const {
    return steps_.capacity() * sizeof(Step) + starts_.capacity() * sizeof(Start) + centres_.capacity() * sizeof(Point) +
           tools_.capacity() * sizeof(std::uint16_t);
}

}  // namespace firstoff
