#include "sim/control/threading_cycle.h"

#include <algorithm>
#include <cmath>

#include "sim/base/tolerances.h"

namespace firstoff {

namespace {

// From the thread towards S.
double outwards(const ThreadingPass& pass) {
    return pass.start.r >= pass.end.r ? 1 : -1;
}

class PassPlanner {
public:
    PassPlanner(const ThreadingPass& pass, std::uint16_t number) : pass_(pass), number_(number), at_(pass.start) {}

    std::vector<CycleMove> run() {
        const double towards = pass_.end.z < pass_.start.z ? -1 : 1;
        go(MoveKind::Rapid, onRoot(pass_.start.z + towards * pass_.shift));
        const double left = std::abs(pass_.end.z - at_.z);
        go(MoveKind::Thread, onRoot(pass_.end.z - towards * std::min(pass_.pullOut, left)));
        const double rise = std::min(std::abs(pass_.end.z - at_.z), std::abs(pass_.start.r - at_.r));
        go(MoveKind::Thread, {pass_.end.z, at_.r + (rise > 0 ? outwards(pass_) * rise : 0)});
        go(MoveKind::Rapid, {at_.z, pass_.start.r});
        go(MoveKind::Rapid, pass_.start);
        return std::move(moves_);
    }

private:
    Point onRoot(double z) const {
        const double length = pass_.start.z - pass_.end.z;
        const double share = length != 0 ? (z - pass_.end.z) / length : 0;
        return {z, pass_.end.r + share * pass_.taper};
    }

    void go(MoveKind kind, Point to) {
        if (distance(at_, to) <= tolerance::kSamePlaceMm) return;
        CycleMove move;
        move.from = at_;
        move.to = to;
        move.kind = kind;
        move.pass = number_;
        if (kind == MoveKind::Thread) {
            move.lead = pass_.lead;
            move.threadDepth = pass_.depth;
        }
        moves_.push_back(move);
        at_ = to;
    }

    const ThreadingPass& pass_;
    std::uint16_t number_;
    Point at_;
    std::vector<CycleMove> moves_;
};

}  // namespace

bool startsClear(const ThreadingPass& pass) {
    const double other = pass.end.r + pass.taper;
    const double s = pass.start.r;
    return s > std::max(pass.end.r, other) + tolerance::kSamePlaceMm ||
           s < std::min(pass.end.r, other) - tolerance::kSamePlaceMm;
}

std::vector<CycleMove> planThreadingPass(const ThreadingPass& pass, std::uint16_t number) {
    return PassPlanner(pass, number).run();
}

std::vector<double> infeedDepths(const ThreadingCycle& cycle) {
    std::vector<double> depths;
    const double rough = cycle.depth - cycle.allowance;
    double depth = 0;
    for (int n = 1; depth < rough; ++n) {
        if (n > kMostThreadPasses) return {};
        const double equalArea = cycle.firstDepth * std::sqrt(static_cast<double>(n));
        depth = std::min(rough, std::max(equalArea, depth + cycle.leastDepth));
        // What is left would be no pass of its own.
        if (rough - depth <= tolerance::kSamePlaceMm) depth = rough;
        depths.push_back(depth);
    }
    depths.insert(depths.end(), static_cast<std::size_t>(cycle.finishPasses), cycle.depth);
    return depths;
}

ThreadPlan planThreadingCycle(const ThreadingCycle& cycle) {
    ThreadPlan plan;
    plan.depths = infeedDepths(cycle);
    plan.tooManyPasses = plan.depths.empty() || plan.depths.size() > kMostThreadPasses;
    if (plan.tooManyPasses) return plan;
    const double out = outwards(cycle.last);
    for (std::size_t i = 0; i < plan.depths.size(); ++i) {
        ThreadingPass pass = cycle.last;
        pass.depth = plan.depths[i];
        pass.shift = pass.depth * std::tan(cycle.infeedAngle / 2);
        pass.end.r += out * (cycle.depth - pass.depth);
        const auto moves = planThreadingPass(pass, static_cast<std::uint16_t>(i + 1));
        plan.moves.insert(plan.moves.end(), moves.begin(), moves.end());
    }
    return plan;
}

std::vector<CycleMove> planTapping(const DrillCycle& hole, double lead) {
    DrillCycle drill = hole;
    drill.peck = 0;
    drill.feedOut = true;
    std::vector<CycleMove> moves = planDrillCycle(drill).moves;
    const bool down = hole.bottomZ < hole.retractZ;
    for (CycleMove& move : moves) {
        if (move.kind != MoveKind::Feed) continue;
        move.kind = MoveKind::Thread;
        move.lead = lead;
        move.reversed = (move.to.z < move.from.z) != down;
    }
    return moves;
}

}  // namespace firstoff
