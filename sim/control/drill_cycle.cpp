#include "sim/control/drill_cycle.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/tolerances.h"

namespace firstoff {

namespace {

class Planner {
public:
    Planner(const DrillCycle& order, DrillPlan& plan) : order_(order), plan_(plan), at_(order.start) {
        const double depth = std::abs(order.bottomZ - order.retractZ);
        towards_ = order.bottomZ < order.retractZ ? -1.0 : 1.0;
        const double pecks = order.peck > 0 ? std::ceil((depth - tolerance::kSamePlaceMm) / order.peck) : 1;
        if (!(pecks * order.repeats <= kMostDrillPecks)) {
            plan.tooMany = true;
        } else {
            pecks_ = static_cast<int>(std::max(1.0, pecks));
        }
    }

    void run() {
        for (int i = 0; i < order_.repeats; ++i) hole();
    }

private:
    void hole() {
        ++pass_;
        go({at_.z, order_.holeR}, MoveKind::Rapid);
        goZ(order_.retractZ, MoveKind::Rapid);
        for (int i = 1; i < pecks_; ++i) peck(order_.retractZ + towards_ * i * order_.peck);
        goZ(order_.bottomZ, MoveKind::Feed);
        if (order_.dwellS > 0) wait();
        if (order_.feedOut) goZ(order_.retractZ, MoveKind::Feed);
        goZ(order_.backToRetractPoint ? order_.retractZ : order_.start.z, MoveKind::Rapid);
    }

    // One that is not the last, and the way to where the next begins.
    void peck(double reached) {
        goZ(reached, MoveKind::Feed);
        const double back = std::min(order_.clearance, std::abs(reached - order_.retractZ));
        if (order_.fullRetract) goZ(order_.retractZ, MoveKind::Rapid);
        goZ(reached - towards_ * back, MoveKind::Rapid);
        ++pass_;
    }

    void wait() {
        CycleMove move{at_, at_, {}, MoveKind::Dwell, static_cast<std::uint16_t>(pass_)};
        move.seconds = order_.dwellS;
        plan_.moves.push_back(move);
    }

    void goZ(double z, MoveKind kind) { go({z, at_.r}, kind); }

    void go(Point to, MoveKind kind) {
        const Point from = at_;
        at_ = to;
        if (distance(from, to) <= tolerance::kSamePlaceMm) return;
        plan_.moves.push_back({from, to, {}, kind, static_cast<std::uint16_t>(pass_)});
    }

    const DrillCycle& order_;
    DrillPlan& plan_;
    Point at_;
    double towards_ = -1;
    int pecks_ = 0;
    int pass_ = 0;
};

}  // namespace

DrillPlan planDrillCycle(const DrillCycle& order) {
    assert(order.retractZ != order.bottomZ && order.peck >= 0 && order.clearance >= 0 && order.repeats >= 0);
    DrillPlan plan;
    Planner planner(order, plan);
    if (!plan.tooMany) planner.run();
    return plan;
}

}  // namespace firstoff
