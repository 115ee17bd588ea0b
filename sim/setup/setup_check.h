// Holds a set-up document against the table of keys. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/base/finding.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// Finds unknown tables and keys, wrong forms, values out of range, keys that are missing or belong to another kind of
// tool. Marks every entry it objects to as not usable.
std::vector<Finding> checkAgainstKeys(SetupDocument& document);

}  // namespace firstoff
