// A tool as it stands at the work, for tool lists. Inside sim/output/sheets only.
#pragma once

#include "sim/output/sheets/sketch.h"
#include "sim/output/sheets/tool_use.h"

namespace firstoff {

inline constexpr double kToolSketchMm = 38;  // its width

// Cutting part and holder to scale with the spindle axis below (r upwards), the gauged tip with a cross, the way it
// feeds with an arrow. A holder that goes on is cut at the edge.
Sketch toolSketch(const Tool& tool, const ToolUse& use);

}  // namespace firstoff
