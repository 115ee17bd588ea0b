// Closed contours of straight edges and circular arcs, not necessarily convex: drawings of bars and parts.
#pragma once

#include <vector>

#include "sim/base/point.h"

namespace firstoff {

// A corner and the edge that leaves it. `bulge` is the tangent of a quarter of the angle that the edge turns through,
// as DXF writes it: 0 straight, 1 a half circle, positive anticlockwise.
struct ContourCorner {
    Point at;
    double bulge = 0;
    friend bool operator==(const ContourCorner&, const ContourCorner&) = default;
};

// The last edge runs back to the first corner. Of several contours together, what lies inside an odd number of them is
// metal.
using Contour = std::vector<ContourCorner>;

// Points along a contour, chords within `chordErrorMm` of its arcs, all corners among them; first point not repeated.
std::vector<Point> polyline(const Contour& contour, double chordErrorMm);

}  // namespace firstoff
