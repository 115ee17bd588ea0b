// Writes ASCII DXF that any reader of the format takes: release R12, with the unit in the header.
#pragma once

#include <string>
#include <vector>

#include "sim/drawing/drawing.h"

namespace firstoff {

// A single edge becomes a LINE or an ARC, two equal half circles a CIRCLE, everything else a POLYLINE with bulges.
// Figures have as many decimals as it takes to read the same number again; ARC and CIRCLE go through their centre, so
// their ends come back within rounding, and a circle anticlockwise from its right. Letters that R12 does not allow in
// the name of a layer become _; no name is layer 0.
std::string dxfText(const std::vector<DrawnPath>& paths, DrawingUnit unit = DrawingUnit::Millimetre);

}  // namespace firstoff
