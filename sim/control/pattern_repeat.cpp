#include "sim/control/pattern_repeat.h"

#include <cassert>

#include "sim/control/cycle_path.h"

namespace firstoff {

namespace {

// Outside unless the profile begins farther from the axis than the start; where both are level, as it ends.
CycleFrame frameOf(const std::vector<ProfileElement>& profile, Point start) {
    CycleFrame frame;
    const Point first = profile.front().from;
    const Point last = profile.back().to;
    if (first.r > start.r || (first.r == start.r && last.r < first.r)) frame.r = -1;
    if (last.z > first.z) frame.z = -1;
    return frame;
}

}  // namespace

PatternPlan planPattern(const std::vector<ProfileElement>& profile, const PatternOrder& order) {
    assert(!profile.empty() && order.passes >= 1);
    PatternPlan plan;
    plan.frame = frameOf(profile, order.start);
    std::vector<ProfileElement> planned;
    for (const ProfileElement& e : profile) planned.push_back(plan.frame.in(e));
    plan.intoPart = depthIntoPart(planned, plan.frame.in(order.allowance));
    plan.firstIntoPart = depthIntoPart(planned, plan.frame.in(order.allowance + order.stock));

    const CycleFrame asItIs;
    CyclePath path(asItIs, order.start, plan.moves);
    for (int left = order.passes - 1; left >= 0; --left) {
        const double part = order.passes > 1 ? static_cast<double>(left) / (order.passes - 1) : 0.0;
        const Point off = order.allowance + part * order.stock;
        const std::vector<ProfileElement> pattern = shifted(profile, off);
        path.beginPass();
        path.go(order.start + off, MoveKind::Rapid);
        path.go(pattern.front().from, order.infeed);
        for (const ProfileElement& e : pattern) path.along(e);
    }
    path.go(order.start, MoveKind::Rapid);
    return plan;
}

}  // namespace firstoff
