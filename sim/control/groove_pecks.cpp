#include "sim/control/groove_pecks.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/tolerances.h"

namespace firstoff {

namespace {

// Along the plunge and across it.
struct Pair {
    double along = 0, across = 0;
};

Pair pairOf(Point p, bool alongX) {
    return alongX ? Pair{p.r, p.z} : Pair{p.z, p.r};
}

// How many steps of `size` it takes; what is left over by less than the same place is no step.
double stepsIn(double length, double size) {
    return length <= tolerance::kSamePlaceMm ? 0 : std::max(1.0, std::ceil((length - tolerance::kSamePlaceMm) / size));
}

class Planner {
public:
    Planner(const GroovePecks& order, GroovePeckPlan& plan)
        : order_(order),
          plan_(plan),
          start_(pairOf(order.start, order.alongX)),
          end_(pairOf(order.end, order.alongX)),
          at_(start_) {}

    void run() {
        const double width = std::abs(end_.across - start_.across);
        const double depth = std::abs(end_.along - start_.along);
        const double plunges = 1 + stepsIn(width, order_.step);
        if (!(plunges * std::max(1.0, stepsIn(depth, order_.peck)) <= kMostPecks)) {
            plan_.tooMany = true;
            return;
        }
        plan_.plunges = static_cast<int>(plunges);
        for (int i = 0; i < plan_.plunges; ++i) {
            const double across = between(start_.across, end_.across, i, order_.step);
            go({start_.along, across}, MoveKind::Rapid);
            plunge();
            if (i > 0) relieve();
            go({start_.along, at_.across}, MoveKind::Rapid);
        }
        go(start_, MoveKind::Rapid);
    }

private:
    // The place after `count` steps from one end towards the other; never beyond it.
    static double between(double from, double to, int count, double size) {
        const double gone = count * size;
        const double whole = std::abs(to - from);
        if (gone >= whole - tolerance::kSamePlaceMm) return count == 0 ? from : to;
        return to > from ? from + gone : from - gone;
    }

    void plunge() {
        const double depth = std::abs(end_.along - start_.along);
        const int pecks = static_cast<int>(stepsIn(depth, order_.peck));
        for (int i = 1; i <= pecks; ++i) {
            ++pass_;
            const double reached = between(start_.along, end_.along, i, order_.peck);
            go({reached, at_.across}, MoveKind::Feed);
            if (i < pecks) retract();
        }
    }

    // Not farther back than where the plunge began.
    void retract() {
        const double back = std::min(order_.retract, std::abs(at_.along - start_.along));
        go({at_.along + (end_.along > start_.along ? -back : back), at_.across}, MoveKind::Rapid);
    }

    // Not farther than the first plunge.
    void relieve() {
        const double back = std::min(order_.relief, std::abs(at_.across - start_.across));
        go({at_.along, at_.across + (end_.across > start_.across ? -back : back)}, MoveKind::Feed);
    }

    Point pointOf(Pair p) const { return order_.alongX ? Point{p.across, p.along} : Point{p.along, p.across}; }

    void go(Pair to, MoveKind kind) {
        const Point from = pointOf(at_);
        const Point next = pointOf(to);
        at_ = to;
        if (distance(from, next) <= tolerance::kSamePlaceMm) return;
        plan_.moves.push_back({from, next, {}, kind, static_cast<std::uint16_t>(std::max(1, pass_))});
    }

    const GroovePecks& order_;
    GroovePeckPlan& plan_;
    Pair start_;
    Pair end_;
    Pair at_;
    int pass_ = 0;
};

}  // namespace

GroovePeckPlan planGroovePecks(const GroovePecks& order) {
    assert(order.peck > 0 && order.retract >= 0 && order.relief >= 0);
    assert(order.step > 0 || pairOf(order.start, order.alongX).across == pairOf(order.end, order.alongX).across);
    GroovePeckPlan plan;
    Planner(order, plan).run();
    return plan;
}

}  // namespace firstoff
