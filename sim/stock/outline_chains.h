// A convex tool outline seen as two functions of z: the lower side, and the upper side as the lower side of its mirror.
//
// Notation. The outline is convex and runs anticlockwise. Its lower side lo(z) is a convex function. Going along it
// from left to right the outward normal n turns anticlockwise from (-1, 0) over (0, -1) to (1, 0), so its z component
// nz grows from -1 to 1 and names the direction without any angle:
//
//        r ^   nz=-1 |          / nz near 1
//          |          \        /
//          |           `-.__.-'          lo(z), slope = nz / sqrt(1 - nz²)
//          +--> z        nz=0
//
// Everything about the upper side is had by turning r round: hi(z) = -lo'(z), where lo' belongs to the mirrored
// outline.
#pragma once

#include <array>
#include <vector>

#include "sim/base/outline.h"
#include "sim/base/point.h"

namespace firstoff {

// One stretch of a lower side. A corner has no extent but turns the normal; sharp ends of the side count as corners, so
// that the stretches together turn the normal from -1 to 1 without a gap.
struct ChainPiece {
    enum class Kind : unsigned char { Line, Arc, Corner };
    Kind kind = Kind::Line;
    Point from;          // left end, tool frame
    Point to;            // right end
    Point centre;        // arcs and corners
    double radius = 0;   // arcs; 0 for corners
    double slope = 0;    // lines: dr/dz
    double nzFrom = -1;  // normal at the left end
    double nzTo = 1;     // normal at the right end
};

// A slope whose supporting line bounds the side from below: r >= offset + slope * z for all of it.
struct Support {
    double slope = 0;
    double nz = 0;      // of the normal to that slope
    double offset = 0;  // least r - slope * z over the outline
};

struct LowerChain {
    std::vector<ChainPiece> pieces;  // from left to right
    double zMin = 0, zMax = 0;
    double bottomFrom = 0, bottomTo = 0;  // z where the side is lowest
    // Level, and along the steepest long edges to the right and to the left: they tell quickly where a tool is too far
    // out to meet metal.
    std::array<Support, 3> supports{};  // level, rising to the right (slope >= 0), rising to the left (slope <= 0)
};

// What the columns know of a tool: both sides of its outline and how far off centre it sits.
struct ToolShape {
    LowerChain lower;
    LowerChain mirroredUpper;  // r turned round
    double centreHeight = 0;   // mm
    bool empty() const { return lower.pieces.empty(); }
};

ToolShape toolShape(const Outline& outline, double centreHeight = 0);

}  // namespace firstoff
