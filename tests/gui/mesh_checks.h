// What any closed body must satisfy.
#pragma once

#include "gui/gl/triangle_mesh.h"

namespace firstoff::gui {

// Every edge is used exactly once in each direction, and no triangle has shrunk to a line.
bool watertight(const TriangleMesh& mesh);
// By the divergence theorem; positive when the triangles run anticlockwise seen from outside.
double volume(const TriangleMesh& mesh);
double area(const TriangleMesh& mesh);

}  // namespace firstoff::gui
