// Surfaces that an entry of the offset page moves although no dimension holds them.
#pragma once

#include <functional>
#include <vector>

#include "sim/inspection/gauged_part.h"
#include "sim/inspection/part_outline.h"

namespace firstoff {

// Straight stretches of the outline that cuts with this offset left, half a millimetre long or more: with `inX` all but
// faces, else faces. `held`: places that dimensions were gauged at; what one of them lies on is left out. `offsetOf`:
// of a cut, 0 where it does not count.
std::vector<MovedSurface> surfacesWithoutDimension(const PartOutline& part, int offset, bool inX,
                                                   const std::vector<Point>& held,
                                                   const std::function<int(CutId)>& offsetOf);

}  // namespace firstoff
