// The machine-readable report of a check, as DEVELOPERS.md and `firstoff check --json` promise it.
#pragma once

#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

// One report object, or for several trials an array of them in their order. Keys in fixed order, UTF-8, ends in a
// newline.
std::string jsonReport(const std::vector<const Trial*>& trials);

}  // namespace firstoff
