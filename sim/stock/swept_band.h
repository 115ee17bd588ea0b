// The mesh of a round band: its half-section swept round the axis.
#pragma once

#include <cstdint>
#include <span>

#include "sim/stock/mesh_bands.h"

namespace firstoff {

// `left` and `right` get their sides if the bar goes on there, that is if the band is not the first or the last.
void sweepBand(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const std::uint16_t> toolOfCut,
               MeshStrips& strips, MeshBorder& left, MeshBorder& right);

}  // namespace firstoff
