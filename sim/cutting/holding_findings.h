// What the estimate of the holding has to say of a program. Inside sim/cutting only.
#pragma once

#include "sim/cutting/holding.h"

namespace firstoff {

// Adds to `result.findings`: grip that the method finds too small, at the cut of each tool that asks most; grip that
// holds, but without the factor that a maker of chucks wants; speed that takes too much of it; a centre pushed off;
// and, where the set-up gives some figures of the grip but not all, that there is no estimate and why.
void addHoldingFindings(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, HoldingResult& result);

}  // namespace firstoff
