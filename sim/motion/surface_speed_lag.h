// Whether the spindle keeps up with the surface speed asked for while a facing cut changes the diameter.
#pragma once

#include <optional>

#include "sim/motion/feed_run.h"
#include "sim/motion/spindle_run_up.h"

namespace firstoff {

struct SurfaceSpeedLag {
    double radius = 0;        // programmed, where the spindle is furthest behind
    double reachedShare = 1;  // of the surface speed asked for, there; above 1 where the spindle is to slow down
    double feedSeconds = 0;   // by which feed per revolution takes longer (or, above 1, less) for it; else 0
};

// Of a straight move: the spindle begins at the speed asked for, and follows as fast as its drive lets it; feed per
// revolution goes with it, feed per minute goes on. Nothing where it keeps up within 5 %.
std::optional<SurfaceSpeedLag> surfaceSpeedLag(const FeedPath& path, const SpindleLaw& spindle,
                                               const SpindleRunUp& drive);

}  // namespace firstoff
