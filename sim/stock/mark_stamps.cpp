#include "sim/stock/mark_stamps.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/motion/move_turns.h"

namespace firstoff {

namespace {

class Stamper {
public:
    Stamper(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, const Box& near,
            double spindleAngle)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), near_(near) {
        const double part = spindleAngle / (2 * kPi);
        begin_ = part - std::floor(part);
        for (const Tool& tool : setup.tools) {
            firstForm_.push_back(static_cast<std::uint32_t>(result_.forms.size()));
            addForm(tool.cutting);
            for (const Outline& step : tool.steps) addForm(step);
        }
        firstForm_.push_back(static_cast<std::uint32_t>(result_.forms.size()));
    }

    MarkStamps run(std::uint32_t moves) {
        for (std::uint32_t i = 0; i < moves; ++i) follow(i);
        return std::move(result_);
    }

private:
    void addForm(const Outline& outline) {
        if (!outline.empty()) result_.forms.push_back({outline, boundingBox(outline)});
    }

    void follow(std::uint32_t index) {
        const TimedMove& timed = timeline_.moves[index];
        const Move& move = toolpath_.moves[timed.move];
        const ToolCall& call = toolpath_.calls[move.call];
        const bool known = call.toolIndex >= 0 && static_cast<std::size_t>(call.toolIndex) < setup_.tools.size();
        const bool axis = move.extra != kNoExtra && toolpath_.extras[move.extra].spindleIsAxis;
        if (!known || axis) {
            running_ = false;
            return;
        }
        if (timed.kind == MoveKind::Dwell) return dwell(index, call);
        const MoveTurns turns(timed, toolpath_, setup_);
        if (turns.total() <= 0) {
            running_ = false;
            return;
        }
        if (!running_ || !(timed.from == end_)) {
            next_ = begin_;
            ++run_;
        }
        running_ = true;
        end_ = timed.to;
        if (comesNear(timed, call)) {
            for (; next_ <= turns.total(); next_ += 1) {
                const double fraction = turns.fractionAfter(next_);
                stamp(pointAt(timed, fraction) + call.tip, call, index, turns.feedAt(fraction));
            }
        } else if (next_ <= turns.total()) {
            next_ += std::floor(turns.total() - next_) + 1;
        }
        next_ = std::max(0.0, next_ - turns.total());
    }

    void dwell(std::uint32_t index, const ToolCall& call) {
        const TimedMove& timed = timeline_.moves[index];
        if (!running_ || !(timed.from == end_)) {
            running_ = false;
            return;
        }
        const double turns = (timed.t1 - timed.t0) / 60 * timed.rpmStart;
        if (next_ <= turns) {
            if (comesNear(timed, call)) stamp(timed.from + call.tip, call, index, 0);
            next_ += std::floor(turns - next_) + 1;
        }
        next_ -= turns;
    }

    bool comesNear(const TimedMove& timed, const ToolCall& call) const {
        Box path{std::min(timed.from.z, timed.to.z), std::max(timed.from.z, timed.to.z),
                 std::min(timed.from.r, timed.to.r), std::max(timed.from.r, timed.to.r)};
        if (timed.kind == MoveKind::ArcClockwise || timed.kind == MoveKind::ArcAnticlockwise) {
            const double radius = std::max(distance(timed.centre, timed.from), distance(timed.centre, timed.to));
            path = {timed.centre.z - radius, timed.centre.z + radius, timed.centre.r - radius, timed.centre.r + radius};
        }
        const auto tool = static_cast<std::size_t>(call.toolIndex);
        for (std::uint32_t form = firstForm_[tool]; form < firstForm_[tool + 1]; ++form) {
            const Box& box = result_.forms[form].box;
            const Box swept{path.zMin + call.tip.z + box.zMin, path.zMax + call.tip.z + box.zMax,
                            path.rMin + call.tip.r + box.rMin, path.rMax + call.tip.r + box.rMax};
            if (overlap(swept, near_)) return true;
        }
        return false;
    }

    void stamp(Point tip, const ToolCall& call, CutId cut, double feed) {
        const auto tool = static_cast<std::size_t>(call.toolIndex);
        for (std::uint32_t form = firstForm_[tool]; form < firstForm_[tool + 1]; ++form) {
            if (overlap(moved(result_.forms[form].box, tip), near_)) {
                result_.stamps.push_back({tip, form, cut, feed, run_});
            }
        }
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    Box near_;
    double begin_ = 0;  // turns from the start of a run to its first stamp
    double next_ = 0;   // turns to the next stamp
    bool running_ = false;
    std::uint32_t run_ = 0;
    Point end_;
    std::vector<std::uint32_t> firstForm_;  // per tool, plus one
    MarkStamps result_;
};

}  // namespace

MarkStamps markStamps(std::uint32_t moves, const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                      const Box& near, double spindleAngle) {
    return Stamper(timeline, toolpath, setup, near, spindleAngle).run(moves);
}

}  // namespace firstoff
