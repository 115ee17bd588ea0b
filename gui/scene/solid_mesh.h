// Bodies that are not round, as triangles for the picture: the closed mesh of the billet with a normal and a colour at
// every corner.
#pragma once

#include <cstdint>
#include <functional>

#include "gui/gl/triangle_mesh.h"
#include "sim/stock/part_mesh.h"

namespace firstoff::gui {

// Scene frame, with the spindle marker at the turret: the part turns with the spindle from there. `colour` as in
// RevolveOptions, `lay` as well where it is given. A vertex's `along` as revolve() gives it.
TriangleMesh solidMesh(const PartMesh& mesh, const std::function<std::uint32_t(CutId)>& colour,
                       const std::function<float(CutId)>& lay = {});

// How coarse a mesh may be for a picture of this many mm a pixel, at most `mostTriangles` as far as coarser steps can
// bring it there. Meshes of what is held and has fallen.
std::vector<PartMesh> solidsFor(const StockHistory& history, const Billet& held, std::uint32_t wholeMoves,
                                double toleranceMm, std::size_t mostTriangles);

}  // namespace firstoff::gui
