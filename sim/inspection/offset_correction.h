// Which entries of the offset page move a gauged size, and what would bring it alone to the middle of its limits.
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

// Fills in cut, block, tool and either what moves it or why nothing does. `gauged` has its limits, its reading and the
// sizes to be expected.
void traceToOffset(GaugedDimension& gauged, const GaugeReading& reading, const Timeline& timeline,
                   const Toolpath& toolpath, const Setup& setup);

}  // namespace firstoff
