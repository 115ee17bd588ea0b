// The half-section of a billet as closed loops.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sim/stock/billet_columns.h"

namespace firstoff {

// Loops of everything in the billet as one sector has it, each a polyline within `toleranceMm` of the columns in r;
// faces stand upright on the border between two columns. `toolOfCut` says which tool made a cut: an edge never joins
// surfaces of two tools (empty: it may). Loops are marked with `piece`.
std::vector<Loop> sectionLoops(const Billet& billet, double toleranceMm, int piece = 0,
                               std::span<const std::uint16_t> toolOfCut = {}, int sector = kEnvelope);

}  // namespace firstoff
