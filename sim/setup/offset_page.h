// Entries of the offset page.
#pragma once

#include "sim/setup/setup.h"

namespace firstoff {

// The entry of that number; put in its place, with nothing entered, where the set-up does not have it.
Offset& offsetEntry(Setup& setup, int number);

}  // namespace firstoff
