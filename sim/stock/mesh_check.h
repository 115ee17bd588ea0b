// Whether a mesh keeps the promises of part_mesh.h, as far as that can be seen without comparing all triangles with
// all.
#pragma once

#include <cstddef>

#include "sim/stock/part_mesh.h"

namespace firstoff {

struct MeshFaults {
    std::size_t openEdges = 0;  // without exactly one triangle on either side, running along it in opposite directions
    std::size_t pinchedPoints = 0;  // whose triangles make more than one fan, or none
    std::size_t flatTriangles = 0;  // two corners in one place
    bool insideOut = false;         // no volume inside

    bool none() const { return openEdges == 0 && pinchedPoints == 0 && flatTriangles == 0 && !insideOut; }
};

MeshFaults meshFaults(const PartMesh& mesh);

}  // namespace firstoff
