// A [[body]] table of a set-up document made into an ExtraBody. Inside sim/setup only.
#pragma once

#include <optional>
#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// `table` has been checked against the keys; contradictions between its values, and with what `setup` has read already,
// are added to its findings. Nothing for a body without shape or place, which is said to be unproven.
std::optional<ExtraBody> readBody(const SetupTable& table, Setup& setup);

}  // namespace firstoff
