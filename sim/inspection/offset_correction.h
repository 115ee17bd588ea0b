// Which entry of the offset page brings a gauged size to the middle of its limits, and by how much.
//
// Wear is added to the programmed position, so + in X makes what the tool turns thicker and what it bores wider, and +
// in Z moves a face away from the chuck. A size between two surfaces that one offset makes cannot be put right by it.
#pragma once

#include "sim/control/toolpath.h"
#include "sim/inspection/dimension_gauge.h"
#include "sim/inspection/gauged_part.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

// Fills in cut, block, tool and either the correction or why there is none. `gauged` has its limits and its reading.
void traceToOffset(GaugedDimension& gauged, const GaugeReading& reading, const Timeline& timeline,
                   const Toolpath& toolpath, const Setup& setup);

}  // namespace firstoff
