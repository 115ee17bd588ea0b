// The moves of the pattern repeating cycle G73: the same profile cut again and again, each time nearer to its place,
// for castings and forgings that have the shape already.
//
// Move order (common practice, no source):
//
//   S  start point of the cycle      A'…B  the profile      u, w  finish allowances, on radius and along Z, as signed
//   i, k  what is to come off, on radius and along Z, as signed      n  number of passes
//
//   Pass j of 1…n lies off the profile by (u, w) + (i, k) (n - j) / (n - 1), so the first by (u + i, w + k) and the
//   last by (u, w); with n = 1 by (u, w). Each goes at rapid to S moved by as much, from there to A' as the first
//   profile block leads in, and at feed along the profile to B. After the last pass at rapid to S.
//
// Work coordinates, X as a radius.
#pragma once

#include <vector>

#include "sim/control/cycle_move.h"
#include "sim/control/cycle_profile.h"

namespace firstoff {

struct PatternOrder {
    Point start;
    Point stock;      // i on radius and k
    Point allowance;  // u on radius and w
    int passes = 1;   // >= 1
    MoveKind infeed = MoveKind::Rapid;
};

struct PatternPlan {
    std::vector<CycleMove> moves;
    CycleFrame frame;
    // How deep the last pass (the allowances) and the first one cut into the finished part.
    double intoPart = 0;
    double firstIntoPart = 0;
};

// `profile` holds at least one element, each beginning where the one before it ends. It may turn back anywhere.
PatternPlan planPattern(const std::vector<ProfileElement>& profile, const PatternOrder& order);

}  // namespace firstoff
