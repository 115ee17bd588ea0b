// Reads half-sections from tables such as `firstoff section` writes: piece,loop,z_mm,r_mm, a row for each point.
#pragma once

#include <optional>
#include <string_view>

#include "sim/drawing/drawing.h"

namespace firstoff {

// The loops of one piece as closed paths, z as z and r as r, in mm; layers are empty. A loop is the rows that follow
// each other with the same piece and loop number; its first point may be repeated at its end. Never throws for what the
// text says; any bytes end.
Drawing readSectionTable(std::string_view text, int piece = 0);

}  // namespace firstoff
