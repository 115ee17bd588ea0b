// A [chuck] table of a set-up document, that of the second spindle too, made into a Chuck. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// `table` has been checked against the keys; contradictions between its values are added to `findings`, and mended.
Chuck readChuck(const SetupTable& table, std::vector<Finding>& findings);

}  // namespace firstoff
