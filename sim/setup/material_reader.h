// Reads what the bar is made of: [stock] material by the table of materials, [material] over it. Inside sim/setup only.
#pragma once

#include <string_view>
#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// `named`: the name [stock] gives, may be empty. A table without keys changes nothing.
Material readMaterial(std::string_view named, SourceSpan namedSpan, const SetupTable& table,
                      std::vector<Finding>& findings);

}  // namespace firstoff
