// The moves that a thread is cut with. The billet is still smooth all round, so the form of a thread is not cut into
// it: these moves take nothing, they are only measured.
//
// They are the thread moves themselves and the pull-out behind them: the tool stands in its own groove then, which the
// billet does not have. A straight way out is a pull-out as long as it leans less than the flank of the tool; anything
// flatter would tear the thread, and counts as any other move.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

enum class ThreadPart : std::uint8_t { None, Thread, PullOut };

// Per timed move.
std::vector<ThreadPart> threadParts(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup);

// Half the angle between the flanks that a tool leaves, rad.
double halfThreadAngle(const Tool& tool);

}  // namespace firstoff
