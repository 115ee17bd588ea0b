// The moves of the roughing cycle G71: turning down a bar, or opening a bore, in passes along Z up to a profile.
//
// Move order (common practice, no source; controls agree in the main and differ in small things):
//
//   S  start point of the cycle, in front of the material      A' first point of the profile     B its last point
//   d  depth of cut, on radius      e  retract      u, w  finish allowances, on radius and along Z, as signed
//
//   The profile A'…B is shifted as a whole by (u, w). Pass i runs at the radius S.r - i d, counted from S itself and
//   not from the shifted profile, as long as that is above the lowest point of the shifted profile:
//     1. along X to the pass, at rapid if the first profile block has G00, at feed if it has G01;
//     2. at feed along Z until the shifted profile stands in the way (to the end of the profile if it nowhere does);
//     3. at feed away by e in X and in Z, at 45°, but not farther back than S;
//     4. at rapid along Z back to S.
//   A pass with nothing to cut is left out. A stretch of the profile at exactly the height of the pass does not stand
//   in its way. After the last pass the tool goes to the beginning of the shifted profile (as in 1) and follows the
//   shifted profile at feed to its end, which takes off the steps; this is the last pass of the count. Then at rapid to
//   S.
//
// Everything here is in work coordinates with X as a radius. Boring is the mirror image in r, a profile that runs away
// from the chuck the mirror image in z.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "sim/base/point.h"
#include "sim/control/toolpath.h"

namespace firstoff {

struct ProfileElement {
    Point from;
    Point to;
    Point centre;  // arcs
    MoveKind kind = MoveKind::Feed;
    BlockId block = kNoBlock;
};

struct RoughingOrder {
    Point start;
    double depth = 0;    // on radius, > 0
    double retract = 0;  // >= 0
    Point allowance;     // signed as programmed, r on radius
    MoveKind infeed = MoveKind::Rapid;
};

struct RoughingMove {
    Point from;
    Point to;
    Point centre;
    MoveKind kind = MoveKind::Feed;
    std::uint16_t pass = 0;    // from 1
    BlockId block = kNoBlock;  // profile block followed; kNoBlock for the cycle's own moves
};

struct RoughingPlan {
    std::vector<RoughingMove> moves;
    int passes = 0;  // the cut along the profile included
    bool outside = true;
    bool towardsChuck = true;
    // Which profile element turns back, if one does: passes then stop at the first wall, pockets behind it stay.
    std::optional<std::size_t> turnsBack;
    bool turnsBackInX = false;
    bool startInsideProfile = false;  // S lies deeper than the farthest point of the profile, or behind its front
    bool allowanceIntoPart = false;   // an allowance has the sign that cuts into the finished size
    bool tooManyPasses = false;       // more than kMostPasses: none was made
};

inline constexpr int kMostPasses = 20'000;

// `profile` holds at least one element, each beginning where the one before it ends.
RoughingPlan planRoughing(const std::vector<ProfileElement>& profile, const RoughingOrder& order);

}  // namespace firstoff
