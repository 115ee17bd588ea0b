// A half-section out of a drawing: closed outlines with z as x and the radius as y. Inside sim/setup only.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "sim/drawing/contour_chain.h"

namespace firstoff {

// "mm", "cm", "m", "inch"; nothing for others.
std::optional<DrawingUnit> drawingUnitNamed(std::string_view word);

// Chained to closed contours. Lines along the axis are left out, and an outline that begins and ends on the axis is
// closed along it.
ChainedContours chainHalfSection(std::vector<DrawnPath> paths);

}  // namespace firstoff
