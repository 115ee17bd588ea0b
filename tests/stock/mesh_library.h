// What a general-purpose geometry library (CGAL, polygon mesh processing) says of a mesh of ours.
#pragma once

#include "sim/stock/part_mesh.h"

namespace firstoff::shop {

struct LibraryVerdict {
    bool isMesh = false;  // the triangles make an oriented two-manifold at all; if not, nothing else is known
    bool closed = false;
    bool boundsVolume = false;  // and the normals point outwards
    bool selfIntersects = true;
    double volumeMm3 = 0;
    int bodies = 0;
};

LibraryVerdict askLibrary(const PartMesh& mesh);

}  // namespace firstoff::shop
