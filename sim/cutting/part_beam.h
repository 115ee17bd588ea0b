// The part in the chuck as a beam of its true section.
#pragma once

#include <optional>

#include "sim/cutting/beam.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

// Stretches that the part is cut into, each with the section in its middle: 0.3 mm of a part that stands out 80 mm.
inline constexpr int kPartStretches = 256;

struct PartBeam {
    Beam beam;          // from the front of the jaws, clamped there, to the front of the part
    double clampZ = 0;  // lathe frame
    double frontZ = 0;  // likewise
};

// What stands in front of `clampZ` (lathe frame); nothing where that is nothing, or a piece without metal in between.
// Of a bar that is not round the circle that fits into it counts, of a thread its root, of rings within each other the
// one that is stiffest alone: never stiffer than it is.
std::optional<PartBeam> partBeam(const Billet& billet, double clampZ, double youngGPa);

}  // namespace firstoff
