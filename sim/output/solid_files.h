// Closed meshes in the file formats of other programs, as bytes.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "sim/stock/part_mesh.h"

namespace firstoff {

struct SolidBody {
    std::string name;  // ASCII, no markup
    PartMesh mesh;     // mm
};

// Binary STL, little-endian: the format as 3D Systems published it (1988; from memory). It says nothing of units; the
// figures are mm. Triangles that have no area left in single precision are left out together with their neighbours on
// the other side, so that the surface stays closed.
std::string stlFile(const std::vector<SolidBody>& bodies);

// A 3MF package (3MF Core Specification 1.2), an object a body, figures to a nanometre.
std::string threeMfFile(const std::vector<SolidBody>& bodies);

// Binary glTF 2.0 (Khronos Group / ISO/IEC 12113:2022): metres, a mesh a body, plain metal, `colour` (0xRRGGBB, sRGB)
// of the cut at every corner. Edges of more than 30° stay sharp in the light.
std::string glbFile(const std::vector<SolidBody>& bodies, const std::function<std::uint32_t(CutId)>& colour);

}  // namespace firstoff
