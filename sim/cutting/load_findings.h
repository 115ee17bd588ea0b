// What loads give away: spindle, insert or holder asked for more than they stand. Inside sim/cutting only.
#pragma once

#include <vector>

#include "sim/base/finding.h"
#include "sim/cutting/cutting_load.h"

namespace firstoff {

// Appends to `loads.findings`: a finding for every tool call and limit that was passed, at its worst place; notes where
// a verdict needs what the set-up does not say. Appends to `loads.assumed` what was taken for granted for them.
void tellLoads(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, LoadResult& loads);

}  // namespace firstoff
