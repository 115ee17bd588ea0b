// The moves that a thread is cut with, and how the spindle turns along them.
//
// They are the thread moves themselves and the pull-out behind them: the tool stands in its own groove then, and turns
// on in it. A straight way out is a pull-out as long as it leans less than the flank of the tool; anything flatter
// would tear the thread, and counts as any other move.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/stamps.h"

namespace firstoff {

enum class ThreadPart : std::uint8_t {
    None,
    Thread,
    PullOut,
    Return,  // a tap on its way out of its own thread
};

inline constexpr std::uint32_t kNotStamped = std::numeric_limits<std::uint32_t>::max();

struct ThreadZone {
    // Per timed move; both empty if the program cuts no thread.
    std::vector<ThreadPart> parts;
    std::vector<std::uint32_t> turnsOf;  // index into `turns`; kNotStamped where the form cannot be cut into the billet
    std::vector<SpindleTurns> turns;

    ThreadPart part(std::size_t timedMove) const { return parts.empty() ? ThreadPart::None : parts[timedMove]; }
};
ThreadZone threadZone(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup);

// The teeth of a tap in the tool frame: a full one behind the chamfer, and those of the chamfer before it, each as much
// lower as the chamfer has it.
std::vector<Outline> tapTeeth(const Tool& tap);

// Half the angle between the flanks that a tool leaves, rad.
double halfThreadAngle(const Tool& tool);

}  // namespace firstoff
