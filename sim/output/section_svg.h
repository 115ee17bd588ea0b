// The half-section as a drawing.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "sim/stock/billet.h"

namespace firstoff {

// SVG 1.1 true to scale: a user unit is a millimetre. Z to the right, radius upwards; loops as drawn by
// StockCursor::section. Outlines in wide, hatching and centre line in narrow lines, half as wide; metal hatched with
// continuous lines at 45°, the other way in every second piece (conventions of ISO 128, from memory).
std::string sectionSvg(std::span<const Loop> loops, std::string_view title);

}  // namespace firstoff
