#include "sim/stock/cut_plan.h"

#include <algorithm>
#include <limits>
#include <utility>

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

std::vector<ToolShape> shapesOf(const Tool& tool) {
    std::vector<ToolShape> shapes{toolShape(tool.cutting, tool.centreHeight)};
    for (const Outline& part : tool.steps) shapes.push_back(toolShape(part, tool.centreHeight));
    return shapes;
}

std::vector<ToolShape> teethOf(const Tool& tool) {
    if (tool.kind != ToolKind::Tap) return shapesOf(tool);
    std::vector<ToolShape> teeth;
    for (const Outline& tooth : tapTeeth(tool)) teeth.push_back(toolShape(tooth, tool.centreHeight));
    return teeth;
}

}  // namespace

CutPlan::CutPlan(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup)
    : blankEnds_{setup.stock.backZ, setup.stock.frontZ}, heldZ_(setup.chuck.jawLength) {
    for (const Tool& tool : setup.tools) {
        shapes_.push_back(shapesOf(tool));
        teeth_.push_back(teethOf(tool));
        holders_.push_back(toolShape(tool.holder));
    }
    for (const ToolCall& call : toolpath.calls) tips_.push_back(call.tip);
    steps_.reserve(timeline.moves.size());
    tools_.reserve(timeline.moves.size());
    const ThreadZone threads = threadZone(timeline, toolpath, setup);
    turns_ = threads.turns;
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
        step.thread = threads.part(steps_.size());
        if (step.thread != ThreadPart::None) step.detail = threads.turnsOf[steps_.size()];
        if (step.path != Sweep::Path::Line) {
            step.detail = static_cast<std::uint32_t>(centres_.size());
            centres_.push_back(timed.centre);
        }
        steps_.push_back(step);
        const bool known = call.toolIndex >= 0 && static_cast<std::size_t>(call.toolIndex) < setup.tools.size();
        tools_.push_back(known ? static_cast<std::uint16_t>(call.toolIndex) : kNoTool);
    }
    measureThreads();
}

// The stretches that thread moves run over, joined where they overlap.
void CutPlan::measureThreads() {
    std::vector<std::pair<double, double>> spans;
    for (std::uint32_t move = 0; move < moves(); ++move) {
        if (teeth(move).empty()) continue;
        const Sweep at = sweep(move);
        spans.emplace_back(std::min(at.from.z, at.to.z), std::max(at.from.z, at.to.z));
    }
    std::sort(spans.begin(), spans.end());
    double end = -std::numeric_limits<double>::infinity();
    for (const auto& [from, to] : spans) {
        threadedLength_ += std::max(0.0, to - std::max(from, end));
        end = std::max(end, to);
    }
}

const SpindleTurns* CutPlan::turns(std::uint32_t move) const {
    const Step& step = steps_[move];
    if (step.thread == ThreadPart::None || step.detail == kNotStamped) return nullptr;
    return &turns_[step.detail];
}

std::span<const ToolShape> CutPlan::teeth(std::uint32_t move) const {
    if (turns(move) == nullptr) return {};
    return teeth_[tools_[move]];
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
    if (step.path != Sweep::Path::Line) sweep.centre = centres_[step.detail] + tip;
    return sweep;
}

std::size_t CutPlan::bytes() const {
    return steps_.capacity() * sizeof(Step) + starts_.capacity() * sizeof(Start) + centres_.capacity() * sizeof(Point) +
           tools_.capacity() * sizeof(std::uint16_t);
}

}  // namespace firstoff
