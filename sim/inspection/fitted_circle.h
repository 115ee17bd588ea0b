// The circle through places gauged along a rounding, by least squares.
#pragma once

#include <optional>
#include <vector>

#include "sim/base/point.h"

namespace firstoff {

// Its radius: of z^2 + r^2 = a z + b r + c about the mean of the points, the squares of the differences being least.
// Nothing where the points lie on a line, or one of them farther than `withinMm` from the circle.
std::optional<double> radiusThrough(const std::vector<Point>& points, double withinMm);

}  // namespace firstoff
