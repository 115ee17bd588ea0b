// The single-pass cycles: a turning pass (G90) or a facing pass (G94) and back to where it began.
//
//   S  start point of the cycle     E  end point of the cut     R  taper
//
// Turning: at rapid along X to E.r + R, at feed to E, at feed along X out to S.r, at rapid along Z back to S. R is the
// radius at the start of the cut less that at its end, so that an outside cone that grows towards the chuck has R below
// zero. Facing is the same with the axes exchanged: R is the Z at the start of the cut less that at its end. Common
// practice, no source (rows TC060 and TC061 of tests/reference/turning_code_facts.csv, from memory).
//
// Inside and outside, towards the chuck and away from it, follow from where E lies seen from S.
#pragma once

#include <vector>

#include "sim/base/point.h"
#include "sim/control/cycle_move.h"

namespace firstoff {

struct SinglePass {
    Point start;       // work coordinates, X as a radius
    Point end;         // of the cut
    double taper = 0;  // signed, on radius for a turning pass, along Z for a facing pass
    bool facing = false;
};

// Whether the taper leads the start of the cut beyond S, away from the part: the control refuses that shape.
bool taperLeadsAway(const SinglePass& pass);

// No cut: E lies where the cut would have no length.
bool cutsNothing(const SinglePass& pass);

// Moves of no length are left out.
std::vector<CycleMove> planSinglePass(const SinglePass& pass);

}  // namespace firstoff
