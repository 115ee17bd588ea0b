// A closed mesh as a renderer wants it: a normal and a colour at every corner.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <vector>

#include "sim/stock/part_mesh.h"

namespace firstoff {

struct ShadedMesh {
    struct Corner {
        MeshPoint place;   // mm
        MeshPoint normal;  // of length 1
        std::uint32_t colour = 0;
    };
    std::vector<Corner> corners;
    std::vector<std::array<std::uint32_t, 3>> triangles;  // in the order of the mesh
};

// Triangles that meet at less than `smoothAngle` (rad) share the light at their corners, each weighing by its area
// times its angle there; where one triangle is lit or coloured unlike its neighbour, the corner is given twice.
ShadedMesh shaded(const PartMesh& mesh, double smoothAngle, const std::function<std::uint32_t(CutId)>& colour);

}  // namespace firstoff
