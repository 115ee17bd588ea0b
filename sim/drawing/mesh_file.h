// Reads a body from a mesh file: STL, text or binary, or OBJ. Other formats are told so: each is one more way for a
// damaged file to do harm, and whatever draws bodies writes STL.
#pragma once

#include <string_view>

#include "sim/drawing/mesh.h"

namespace firstoff {

// The triangles of all solids in the file together, checked as mesh_check.h has it; with any fault there are none.
// `unit` of the figures (neither format says it itself; NotSaid counts as mm). Never throws for what the bytes say; any
// bytes end. Throws std::bad_alloc.
Mesh readMesh(std::string_view bytes, std::string_view fileName, DrawingUnit unit);

}  // namespace firstoff
