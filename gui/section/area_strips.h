// Areas bounded by loops, taken apart into upright strips for filling, and hatched.
#pragma once

#include <utility>
#include <vector>

#include "sim/base/point.h"

namespace firstoff::gui {

using PlaneLoop = std::vector<Point>;  // closed; first point not repeated

// Between z0 and z1, bounded by straight lines from low0 to low1 and from high0 to high1.
struct AreaStrip {
    double z0 = 0, z1 = 0;
    double low0 = 0, low1 = 0, high0 = 0, high1 = 0;
};

// What lies inside an odd number of the loops. Strips do not overlap and leave no gaps.
std::vector<AreaStrip> stripsOf(const std::vector<PlaneLoop>& loops);

// Lines at 45 degrees, rising, `apart` from each other square to their direction, inside an odd number of the loops.
// They go through points with z - r = k apart sqrt(2), whole k, so that they stand still when the loops change.
std::vector<std::pair<Point, Point>> hatching(const std::vector<PlaneLoop>& loops, double apart);

}  // namespace firstoff::gui
