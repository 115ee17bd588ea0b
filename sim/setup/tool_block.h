// The block that holds a tool, and whether it goes with how the tool stands. Inside sim/setup only; toolBlockOf() is
// declared in setup.h.
#pragma once

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// Of a tool that has been read from `table`: its own block, where it has one; adds to the findings of the set-up what
// contradicts the tool's place or overhang, and leaves out a block that cannot be. Turret and common block must have
// been read before.
void readToolBlock(const SetupTable& table, Setup& setup, Tool& tool);

}  // namespace firstoff
