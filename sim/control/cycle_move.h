// A move that a canned cycle has planned, before the control makes a Move of it.
//
// Planners are plain geometry: they know no modal state, no tool and no block words. Everything is in work coordinates
// with X as a radius. The control gives each move its place in the lathe, its feed and its block.
#pragma once

#include <cstdint>

#include "sim/base/point.h"
#include "sim/control/toolpath.h"

namespace firstoff {

struct CycleMove {
    Point from;
    Point to;      // Dwell: where it waits
    Point centre;  // arcs
    MoveKind kind = MoveKind::Feed;
    std::uint16_t pass = 0;    // from 1
    BlockId block = kNoBlock;  // profile block followed; kNoBlock for the cycle's own moves
    double seconds = 0;        // Dwell
    double lead = 0;           // Thread: mm per revolution along the longer axis
    bool reversed = false;     // Thread: with the spindle the other way round, out of a tapped hole
    double threadDepth = 0;    // Thread: of the pass below the crest, 0 where it is not known
};

}  // namespace firstoff
