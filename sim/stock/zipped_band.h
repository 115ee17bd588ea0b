// The mesh of a plain band: each side of the metal is drawn along every meridian by itself, and neighbouring meridians
// are joined by a zip of triangles.
#pragma once

#include <cstdint>
#include <span>

#include "sim/stock/mesh_bands.h"

namespace firstoff {

// A border that already has sides is kept to; one that has none gets them. `sectors`: of the meridians.
void zipBand(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const std::uint16_t> toolOfCut,
             std::span<const int> sectors, MeshStrips& strips, MeshBorder& left, MeshBorder& right);

}  // namespace firstoff
