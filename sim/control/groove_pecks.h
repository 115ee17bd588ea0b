// The pecking cycles G74 (along Z: face grooves, drilling on the axis) and G75 (along X: grooves, parting).
//
//   S  start point      E  end point: depth of the plunges and place of the last one
//   i  peck, along the plunge     k  step from plunge to plunge     e  retract after a peck     d  relief at the bottom
//
// Move order (common practice, no source; rows TC065 and TC066 of tests/reference/turning_code_facts.csv are from
// memory too). From S: at feed by i, at rapid back by e, at feed by e + i, and so on; the last peck ends exactly at the
// depth of E. Then at rapid back level with S, at rapid across by k, and the next plunge; the last step ends exactly at
// E. After the last plunge at rapid back level with S and across to S.
// Relief: at the bottom, at feed, by d back towards the plunge before. The first plunge stands in full material on both
// sides, so there it is left out.
//
// The direction of pecks and steps is the one from S to E, whatever signs the program gives them.
#pragma once

#include <vector>

#include "sim/base/point.h"
#include "sim/control/cycle_move.h"

namespace firstoff {

struct GroovePecks {
    Point start;  // work coordinates, X as a radius
    Point end;
    double peck = 0;     // > 0
    double step = 0;     // > 0; not looked at when start and end are level across the plunge
    double retract = 0;  // >= 0
    double relief = 0;   // >= 0
    bool alongX = false;
};

struct GroovePeckPlan {
    std::vector<CycleMove> moves;  // a pass is a peck
    int plunges = 0;
    bool tooMany = false;  // more than kMostPecks: none was made
};

inline constexpr int kMostPecks = 5000;

GroovePeckPlan planGroovePecks(const GroovePecks& order);

}  // namespace firstoff
