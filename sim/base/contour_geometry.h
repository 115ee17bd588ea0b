// Measures of contours with arcs.
//
// Notation of an edge from a to b with bulge k = tan(theta / 4), theta the angle it turns through, positive
// anticlockwise; c = b - a, L = |c|:
//   radius  R = L (1 + k^2) / (4 |k|)
//   centre  m = (a + b) / 2 + left(c) (1 - k^2) / (4 k)
//   area between chord and arc = R^2 (theta - sin theta) / 2, with the sign of k
#pragma once

#include <optional>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/outline.h"
#include "sim/base/point.h"

namespace firstoff {

struct EdgeArc {
    Point centre;
    double radius = 0;
    double turn = 0;  // rad, positive anticlockwise
};

// Nothing for an edge that departs from its chord by less than the rounding of lathe sizes.
std::optional<EdgeArc> arcOf(Point from, Point to, double bulge);

// The bulge of an arc that turns through `turn` rad, less than a whole turn either way.
double bulgeOf(double turn);

inline Point edgeEnd(const Contour& contour, std::size_t edge) {
    return contour[edge + 1 < contour.size() ? edge + 1 : 0].at;
}

// Where the edge is nearest to and farthest from the limits: exact, the bows of arcs included.
Box edgeBox(Point from, Point to, double bulge);
Box boundingBox(const std::vector<Contour>& contours);

// Signed: positive for a contour that runs anticlockwise.
double areaOf(const Contour& contour);

// Distance from the origin to the farthest point of any contour.
double farthestFromOrigin(const std::vector<Contour>& contours);

// The same shape with z turned round, z -> sum - z; it keeps its sense of running, so that turning it round twice gives
// what it was, but for rounding and the corner it begins with.
Contour mirroredInZ(const Contour& contour, double sum);

// All of it moved along z.
void shiftInZ(std::vector<Contour>& contours, double by);

}  // namespace firstoff
