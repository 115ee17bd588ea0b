// What one move of a tool sweeps out, as two functions of z: everything between lo(z) and hi(z) is removed.
//
// Notation. O: the outline, convex, lower side lo_O (see outline_chains.h). The tool's reference runs along a path
// p(t), t from 0 to 1, that goes one way along z (arcs are split where they turn back). Then every column is met during
// one span of t and what it loses is one stretch [lo(z), hi(z)], with
//
//        lo(z) = min over t of  p(t).r + lo_O(z - p(t).z).
//
// Straight path. The swept area is the Minkowski sum of O and the segment. Its lower side is that of O at the left end
// of the path up to the point T whose normal is square to the path, the strip that T draws, and that of O at the right
// end from T on. (Sums of convex sets by merging their edges in order of direction: elementary convex geometry.)
//
// Arc path, radius R about C. A minimum over t lies at an end of the path or where the path's radius u is parallel to
// the normal n of the outline at the point that touches z:
//   - u = n, an outline arc of radius rho about E: the concentric arc of radius R + rho about C + E, lower half;
//   - u = n, a straight edge: the edge where the path's tangent is parallel to it;
//   - u = -n, the same arc, R > rho: radius R - rho about C + E, upper half (R <= rho: a maximum, never the least);
//   - corners are arcs of radius 0.
// Each of these places is really reached by the tool, so the least of them is exact even where more are tried than
// needed.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "sim/stock/billet.h"
#include "sim/stock/grid.h"
#include "sim/stock/outline_chains.h"

namespace firstoff {

// A piece of a side: r as a function of z between two places.
struct Branch {
    enum class Kind : std::uint8_t {
        Line,   // a + b * (z - c)
        Under,  // a - sqrt(b - (z - c)²), the lower half of a circle
        Over,   // a + sqrt(b - (z - c)²), the upper half
    };
    double zFrom = 0, zTo = 0;
    double a = 0, b = 0, c = 0;
    Kind kind = Kind::Line;
};

// Three lines below one side of a sweep, see LowerChain::supports.
struct SideBound {
    double level = 0;
    double rightOffset = 0, rightSlope = 0;
    double leftOffset = 0, leftSlope = 0;

    // No less than this anywhere between za and zb.
    double floor(double za, double zb) const {
        const double right = rightOffset + rightSlope * za;
        const double left = leftOffset + leftSlope * zb;
        const double side = right > left ? right : left;
        return level > side ? level : side;
    }
};

// A span of branches in the list they were made into.
struct BranchSpan {
    std::uint32_t begin = 0, end = 0;
};

struct SweepProfile {
    CutId cut = 0;
    int firstColumn = 0, lastColumn = -1;  // columns it may meet, inside the grid; none if last < first
    BranchSpan lower;
    BranchSpan upper;  // of the mirrored upper side: -hi(z)
    SideBound lowerBound;
    SideBound upperBound;                 // mirrored too
    double bottomFrom = 0, bottomTo = 0;  // straight sweeps: where lo is least
    double centreHeight = 0;
    std::int32_t stamps = -1;  // index of a StampRun: only that is taken out, see stamps.h
    bool straight = true;  // both sides convex (mirrored), so that their greatest values lie at the ends of any span
};

// Appends the profiles of a sweep (one, or for arcs up to three) and their branches. Nothing is appended for a sweep
// without travel or one that meets no column.
void appendProfiles(const Sweep& sweep, const ToolShape& shape, const Grid& grid, CutId cut,
                    std::vector<SweepProfile>& profiles, std::vector<Branch>& branches);

// Appends the branches of a side of an outline that stands at the origin.
void appendOutline(const LowerChain& chain, std::vector<Branch>& branches);

// Least value of the branches at z; infinity where none of them reaches.
double sideAt(const Branch* begin, const Branch* end, double z);

// The first `fraction` of the sweep's length.
Sweep firstPart(const Sweep& sweep, double fraction);

}  // namespace firstoff
