// Writes the moves of a cycle, planned in the frame of CycleFrame, as CycleMoves in work coordinates.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/control/cycle_move.h"
#include "sim/control/cycle_profile.h"

namespace firstoff {

class CyclePath {
public:
    // `start` in the frame of planning.
    CyclePath(const CycleFrame& frame, Point start, std::vector<CycleMove>& out)
        : frame_(frame), at_(start), out_(out) {}

    Point at() const { return at_; }
    int pass() const { return pass_; }
    void beginPass() { ++pass_; }

    // Straight, as one of the cycle's own moves. One that goes on in the direction of the move before it is joined to
    // it.
    void go(Point to, MoveKind kind);
    // Along a piece of profile, from where the path stands.
    void along(const ProfileElement& piece);

private:
    bool goesOn(Point to, MoveKind kind) const;

    const CycleFrame& frame_;
    Point before_;  // where the last move began
    Point at_;
    int pass_ = 0;
    std::vector<CycleMove>& out_;
};

}  // namespace firstoff
