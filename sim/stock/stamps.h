// A tool that passes every place of the turning part once per revolution: threads, and the marks that a feed leaves.
//
// Notation. n: turns of the spindle since the move began, N in all; the marker of the spindle passes the tool whenever
// the turns since it are whole. A sector at the share s of a turn (s = j / sectors) passes the tool at every n with
//
//        direction * (from + n)  =  s  (mod 1),      direction +1 under M03, -1 under M04.
//
// In the half-plane of that sector the outline of the tool stands at p(n) at these instants and nowhere else, so what
// the sector loses is the union of the outline at these places: its lower side is the least of the outline's lower side
// moved there. The rake face is taken to lie in the half-plane; a thread's helix changes nothing about that.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/control/thread_lead.h"
#include "sim/stock/sweep_profile.h"

namespace firstoff {

// How the spindle turns along a straight move.
struct SpindleTurns {
    double from = 0;    // turns since the marker when the move begins, either way
    double turns = 0;   // along the whole move, >= 0
    int direction = 1;  // 1 forward (M03), -1 reverse (M04)
    LeadLaw lead;       // way along the longer axis after n turns
    double way = 0;     // along the longer axis, mm; 0: the tool stands still

    // Share of the move's length that is behind after n turns.
    double shareAfter(double n) const;
    // Turns along the first `share` of the move.
    double turnsTo(double share) const;
};

// More turns than this along one move are not stamped: the marks would be finer than the columns, or the part far
// longer than any lathe.
inline constexpr double kMostStampedTurns = 16384;

// One outline and where it stands in each sector.
struct StampRun {
    std::vector<Branch> lower;  // of the outline standing at the origin
    std::vector<Branch> upper;  // of its mirror
    double zMin = 0, zMax = 0;
    double bottom = 0;    // least r of the lower side
    double leastTop = 0;  // least r of the upper side
    bool rising = true;   // in every sector the places stand in order of growing z, otherwise of falling z
    std::vector<Point> places;
    std::vector<std::uint32_t> begin;  // first place of each sector, and one past the last
};

// Appends the profile of a straight sweep as appendProfiles() does - nothing of a stamped sweep reaches beyond that -
// with the stamps themselves.
void appendStamps(const Sweep& sweep, const SpindleTurns& turns, const ToolShape& shape, const Grid& grid, int sectors,
                  CutId cut, std::vector<SweepProfile>& profiles, std::vector<Branch>& branches,
                  std::vector<StampRun>& runs);

}  // namespace firstoff
