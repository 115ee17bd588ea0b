// A body as a mesh of triangles.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "sim/drawing/drawing.h"

namespace firstoff {

// x, y, z of three corners, anticlockwise as seen from outside; in the unit of the file.
using MeshFacet = std::array<float, 9>;

struct Mesh {
    std::vector<MeshFacet> triangles;
    std::vector<DrawingFault> faults;  // `line` of the mesh file; `place` is not used
};

// More than any machine body needs to be told from another; a check of clearances takes in some ten thousand triangles
// without being felt. Larger: reading and checking takes seconds and hundreds of megabytes.
inline constexpr std::size_t kMostTriangles = 2'000'000;

// A fault of severity Stop, not proven.
DrawingFault meshFault(const char* code, std::string message, std::string remedy, std::size_t line = 0);

}  // namespace firstoff
