// One [[tool]] of a set-up document made into a Tool. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// `table` has been checked against the keys; contradictions between its values are added to `findings`, and mended so
// that the outline can be made whatever the file says.
Tool readTool(const SetupTable& table, std::vector<Finding>& findings);

}  // namespace firstoff
