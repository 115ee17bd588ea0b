// A size with what part and bar give way: along the surface it holds for, and where it is worst.
#pragma once

#include "sim/inspection/cut_bending.h"
#include "sim/inspection/dimension_gauge.h"
#include "sim/inspection/gauged_part.h"

namespace firstoff {

// Fills in size, bending, the smallest and the largest size to be expected, places. `gauged` has its limits; `reading`
// has a value. A diameter is looked at along all of its cylinder, a taper at both its ends. Lengths, widths, radii and
// chamfers do not hang on it; of threads, and of run-out, it is not known.
void countBending(GaugedDimension& gauged, const GaugeReading& reading, const CutBending& bent);

}  // namespace firstoff
