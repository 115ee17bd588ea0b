// The mesh of a knotty band, where sides of metal begin or end: rows of points at the same z in all meridians, joined
// cell by cell. It works whatever the columns hold; it wants more triangles than the other ways.
#pragma once

#include <span>

#include "sim/stock/mesh_bands.h"

namespace firstoff {

// Borders are kept to; a border without sides is an end of the metal. `sectors`: of the meridians.
void meshRows(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const int> sectors,
              MeshStrips& strips, const MeshBorder& left, const MeshBorder& right);

// Columns of a band whose rows of points are enough: between two of them the same sides run through in every meridian,
// within `sectionMm` of a straight line. Exposed for tests.
std::vector<int> rowColumns(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const int> sectors);

}  // namespace firstoff
