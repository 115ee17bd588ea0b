// Reads ASCII DXF of any release: the LINE, ARC, CIRCLE, LWPOLYLINE and POLYLINE entities of its model, arcs kept
// exact.
//
// Left out without harm: writing, dimensions, fillings, points, and what stands on layout sheets. Everything else, such
// as an ellipse, a spline or an inserted block, is named in a fault that is not proven. Layers are read whether they
// are switched on or not.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "sim/drawing/drawing.h"

namespace firstoff {

struct DxfOptions {
    std::string layer;                // read only this one, capitals or not; empty: all
    std::optional<DrawingUnit> unit;  // of the figures, whatever the file says
};

// Never throws for what the text says; any bytes end.
Drawing readDxf(std::string_view text, const DxfOptions& options = {});

}  // namespace firstoff
