// The drilling cycles on the axis: in one go, in pecks, with a dwell, bored out at feed.
//
//   I  initial level: Z where the cycle begins     R  retract point     B  bottom of the hole
//   q  peck     d  clearance
//
// Move order (common practice, no source): at rapid along X to the hole, at rapid along Z to R, at feed to B, a dwell
// at B if there is one, and back at rapid to I, or to R where the program asks for that. Boring comes back to R at
// feed. In pecks: at feed by q; then, with full retract, at rapid back to R and at rapid to d above what was reached,
// or else at rapid back by d; then at feed to q below what was reached. The last peck ends exactly at B.
#pragma once

#include <vector>

#include "sim/base/point.h"
#include "sim/control/cycle_move.h"

namespace firstoff {

struct DrillCycle {
    Point start;       // work coordinates, X as a radius; its Z is the initial level
    double holeR = 0;  // of the hole
    double retractZ = 0;
    double bottomZ = 0;
    double peck = 0;  // 0: in one go
    double clearance = 0;
    bool fullRetract = true;
    double dwellS = 0;
    bool feedOut = false;
    bool backToRetractPoint = false;
    int repeats = 1;
};

struct DrillPlan {
    std::vector<CycleMove> moves;  // a pass is a peck
    bool tooMany = false;          // more than kMostDrillPecks: none was made
};

inline constexpr int kMostDrillPecks = 5000;

// The way from R to B must not be shorter than nothing: retractZ and bottomZ differ.
DrillPlan planDrillCycle(const DrillCycle& order);

}  // namespace firstoff
