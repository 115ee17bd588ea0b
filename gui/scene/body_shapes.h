// The mesh of a body: the good-looking shape of its kind where there is one, else its pieces as they are.
#pragma once

#include "gui/gl/triangle_mesh.h"
#include "sim/clearance/machine_bodies.h"

namespace firstoff::gui {

// In the frame of the body's carrier, laid out as the scene. `setup` is what `machine` was made from.
TriangleMesh shapeOf(const MachineBody& body, const Setup& setup, const firstoff::MachineBodies& machine);

// Pieces as flat facets: boxes and other hulls, triangles of meshes, turned solids.
TriangleMesh piecesShape(const std::vector<ConvexPiece>& pieces, std::uint32_t colour);

}  // namespace firstoff::gui
