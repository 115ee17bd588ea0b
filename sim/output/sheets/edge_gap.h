// How near the edge in use comes to the metal on a rapid: clearances leave that pair to the cut itself, see
// sim/clearance/clearance.h. Inside sim/output/sheets only.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/stock/billet.h"

namespace firstoff {

// Least distance, mm, between the cutting part of a tool on the straight way of its tip from `from` to `to` and the
// metal of these half-sections (lathe frame), in the turning half-plane; 0 where they meet. Infinite without metal.
double edgeGap(const Tool& tool, Point from, Point to, const std::vector<Loop>& metal);

}  // namespace firstoff
