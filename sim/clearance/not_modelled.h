// What a program would have needed and is not looked at.
#pragma once

#include "sim/clearance/clearance.h"

namespace firstoff {

// Adds to `result`: its sentences, and for what moves or stands in the way of what moves a finding that keeps the trial
// from being clear.
void tellNotModelled(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                     const MachineBodies& bodies, ClearanceResult& result);

}  // namespace firstoff
