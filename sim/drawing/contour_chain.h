// Loose lines and arcs put together to closed contours.
#pragma once

#include <vector>

#include "sim/drawing/drawing.h"

namespace firstoff {

// Ends nearer than this are one corner: below a control's least increment, far above the rounding of drawn figures.
// Larger: short edges vanish. Smaller: outlines drawn with few decimals stay open.
inline constexpr double kChainMm = 0.001;

struct ChainedContours {
    std::vector<Contour> contours;  // in order of their first path; none with an open end or a branch in it
    std::vector<DrawingFault> faults;
};

// Every end must meet exactly one other. An end that meets none, or more than one, is a fault with its place. Of paths
// drawn twice one is taken, which is noted. Where ends do not meet exactly the start of the next path is the corner.
ChainedContours chainContours(const std::vector<DrawnPath>& paths);

}  // namespace firstoff
