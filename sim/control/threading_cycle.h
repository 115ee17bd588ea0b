// Threads as cycles: one pass and back (G92), or a whole thread in passes (G76).
//
//   S  start point of the cycle     E  end of the thread, on its root     i  taper     L  lead
//   c  length of the pull-out along Z     k  depth     d  finish allowance     D(n)  depth of pass n below the crest
//
// A pass (common practice, no source): at rapid to the start of the pass, at the lead along the root line, over the
// last c at 45° away from the part, at rapid along X to S.r, at rapid along Z back to S. i is the radius at the start
// of the thread less that at its end, so an outside taper that grows towards the chuck has i below zero. The pull-out
// ends at E.z and never goes beyond S.r.
//
// Depths of a whole thread (rows TC067, TC075 and TC076 of tests/reference/turning_code_facts.csv): D(n) = D(1)
// sqrt(n), so that every pass takes the same area, but no pass less than the least depth, up to k - d; then k, and k
// again for every further finish pass.
//
// Infeed along one flank of a thread of angle a: a pass at depth D starts D tan(a / 2) further on in the direction of
// the cut, so that the flank in front does the cutting. Common practice, no source; where the shift counts from differs
// between controls, and moves the whole thread round the part without changing its form.
//
// Inside and outside, towards the chuck and away from it, follow from where E lies seen from S. Everything is in work
// coordinates with X as a radius.
#pragma once

#include <vector>

#include "sim/base/point.h"
#include "sim/control/cycle_move.h"
#include "sim/control/drill_cycle.h"

namespace firstoff {

struct ThreadingPass {
    Point start;
    Point end;
    double taper = 0;
    double lead = 0;
    double pullOut = 0;  // c, >= 0
    double depth = 0;    // of the pass below the crest, 0 where it is not known
    double shift = 0;    // along Z in the direction of the cut, >= 0
};

struct ThreadingCycle {
    ThreadingPass last;     // at full depth; its own depth and shift are not used
    double depth = 0;       // k > 0
    double firstDepth = 0;  // D(1) > 0
    double leastDepth = 0;
    double allowance = 0;    // d, 0 <= d < k
    int finishPasses = 1;    // 0 leaves the allowance standing
    double infeedAngle = 0;  // a, rad
};

struct ThreadPlan {
    std::vector<CycleMove> moves;  // a pass is a threading pass
    std::vector<double> depths;    // of the passes
    bool tooManyPasses = false;    // more than kMostThreadPasses: none was made
};

inline constexpr int kMostThreadPasses = 999;

// Whether S lies clear of the thread: outside the larger or inside the smaller of its radii.
bool startsClear(const ThreadingPass& pass);

// Without the moves of no length. `pass` numbers them.
std::vector<CycleMove> planThreadingPass(const ThreadingPass& pass, std::uint16_t number = 1);

// Depths of the passes; empty if there are more than kMostThreadPasses.
std::vector<double> infeedDepths(const ThreadingCycle& cycle);

ThreadPlan planThreadingCycle(const ThreadingCycle& cycle);

// Tapping: the drilling cycle in one go, in and out at the lead, out with the spindle reversed.
std::vector<CycleMove> planTapping(const DrillCycle& hole, double lead);

}  // namespace firstoff
