// Findings of a place in a cut, as loads, holding and bending tell them.
#pragma once

#include <cstdint>

#include "sim/base/finding.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

// With line, time and place of the tip at `fraction` of the length of a timed move. The line is block + 1, as in
// findings of the timeline: the trial makes the line of a file of it.
Finding cutFinding(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, std::uint32_t timedMove,
                   double fraction, Severity severity, const char* code);

}  // namespace firstoff
