// The [stock] table of a set-up document made into a Stock. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// `table` has been checked against the keys; contradictions between its values are added to `findings`. What is drawn
// or comes from another trial has no radius and no length yet. `jawFaceZ`: lathe frame.
Stock readStock(const SetupTable& table, double jawFaceZ, std::vector<Finding>& findings);

}  // namespace firstoff
