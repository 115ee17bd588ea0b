// How deep the edge stands in the metal along a cut, as a turner says it. Inside sim/training only.
#pragma once

#include <cstddef>
#include <optional>

#include "sim/trial/trial.h"

namespace firstoff {

// Radially, of a timed move that runs along the axis rather than across: the middle one of the depths at places spread
// along it, those in air left out. So what a cut meets at the foot of a shoulder does not count. Nothing for other
// moves, and where no metal is met.
std::optional<double> depthAlong(const Trial& trial, std::size_t timedMove);

}  // namespace firstoff
