// The profile between the P and Q blocks of a cycle, and the frame in which the cycles along it are planned.
//
// All of them are planned as one case: an outside profile turned towards the chuck, its passes along the axis. In that
// frame z falls along the profile and r is the height that material is taken down from. Boring is the mirror image in
// the radius, turning away from the chuck the mirror image in z, and facing (G72) the same with the axes exchanged.
#pragma once

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

// Where the material lies, and which way the passes go.
struct CycleFrame {
    bool exchanged = false;  // passes along X
    double z = 1;            // +1 or -1, after the exchange: along the passes
    double r = 1;            // likewise: across them

    // From work coordinates into the frame of planning, and back.
    Point in(Point work) const;
    Point out(Point planned) const;
    // Either way: an arc seen in a mirror turns the other way.
    MoveKind turned(MoveKind kind) const;
    ProfileElement in(const ProfileElement& element) const;

    // Of the surface that is turned.
    bool outside() const { return (exchanged ? z : r) > 0; }
    bool towardsChuck() const { return (exchanged ? r : z) > 0; }
};

// Angle from the start of the arc to `at` about its centre in the arc's sense, rad, 0 … 2 pi.
double progress(const ProfileElement& arc, Point at);

struct Extent {
    double zMin, zMax, rMin, rMax;
};
Extent extent(const ProfileElement& element);

// How deep the profile dips into the part when it is moved as a whole, 0 if it stays outside. In the frame of
// CycleFrame, where the part lies below it: a wall that faces the chuck is dipped into by what a wall that faces away
// from it gains.
double depthIntoPart(const std::vector<ProfileElement>& profile, Point by);

// `profile` moved as a whole.
std::vector<ProfileElement> shifted(std::vector<ProfileElement> profile, Point by);

}  // namespace firstoff
