// The [turret] table of a set-up document made into a Turret. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// `table` has been checked against the keys; contradictions between its values and with the machine are added to
// `findings`, and mended.
Turret readTurret(const SetupTable& table, const Machine& machine, std::vector<Finding>& findings);

// The block of all tools that have none of their own: z and width; a width of 0 where it is not said.
ToolBlock readCommonBlock(const SetupTable& table, std::vector<Finding>& findings);

}  // namespace firstoff
