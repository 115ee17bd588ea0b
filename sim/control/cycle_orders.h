// Which orders are cycles.
#pragma once

#include "sim/control/codes.h"

namespace firstoff {

// Cycles that act in their own block only: finishing, roughing, patterns, pecks, threads in passes.
bool isOneShotCycle(Order order);

}  // namespace firstoff
