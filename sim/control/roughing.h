// The moves of the roughing cycles G71 and G72: taking a bar down, or opening a bore, in passes up to a profile.
//
// G71 cuts along Z, G72 along X. Below is the way of G71; G72 is the same with the axes exchanged.
//
// Move order (common practice, no source; controls agree in the main and differ in small things):
//
//   S  start point of the cycle, in front of the material      A' first point of the profile     B its last point
//   d  depth of cut, on radius      e  retract      u, w  finish allowances, on radius and along Z, as signed
//   i, k  roughing allowances: what the passes leave above (u, w) for the cut along the profile
//
//   The profile A'…B is shifted as a whole by (u + i, w + k). Pass n runs at the radius L = S.r - n d, counted from S
//   itself and not from the shifted profile, as long as that is above the lowest point of the shifted profile.
//
// Type I, for a profile that only rises:
//     1. along X to the pass, at rapid if the first profile block has G00, at feed if it has G01;
//     2. at feed along Z until the shifted profile stands in the way (to the end of the profile if it nowhere does);
//     3. at feed away by e in X and in Z, at 45°, but not farther back than S;
//     4. at rapid along Z back to S.
//   A pass with nothing to cut is left out. A stretch of the profile at exactly the height of the pass does not stand
//   in its way.
//
// Type II, for a profile with pockets: see roughing_pockets.h.
//
// After the last pass the tool goes to the beginning of the profile shifted by (u, w), as in 1, and follows it at feed
// to its end, which takes off the steps; this is the last pass of the count. Then at rapid to S, first along X if the
// profile was higher on the way than where it ended.
//
// Everything that goes in and out here is in work coordinates with X as a radius.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "sim/base/point.h"
#include "sim/control/cycle_move.h"
#include "sim/control/cycle_profile.h"

namespace firstoff {

struct RoughingOrder {
    Point start;
    double depth = 0;    // > 0; on radius for G71, along Z for G72
    double retract = 0;  // >= 0
    Point allowance;     // signed as programmed, r on radius
    Point leave;         // the roughing allowances i and k, likewise
    MoveKind infeed = MoveKind::Rapid;
    bool alongX = false;   // G72
    bool pockets = false;  // type II
};

struct RoughingPlan {
    std::vector<CycleMove> moves;
    int passes = 0;  // the cut along the profile included
    CycleFrame frame;
    // Which profile element turns back, if one does: passes then stop at the first wall, pockets behind it stay. With
    // pockets allowed, only what turns back along the passes.
    std::optional<std::size_t> turnsBack;
    bool turnsBackAcross = false;     // across the passes: in X for G71
    bool startInsideProfile = false;  // S lies deeper than the farthest point of the profile, or behind its front
    double intoPart = 0;              // how deep the allowances let the cycle cut into the finished part
    bool tooManyPasses = false;       // more than kMostPasses: none was made
};

inline constexpr int kMostPasses = 20'000;

// `profile` holds at least one element, each beginning where the one before it ends.
RoughingPlan planRoughing(const std::vector<ProfileElement>& profile, const RoughingOrder& order);

}  // namespace firstoff
