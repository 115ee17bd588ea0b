#include <array>
#include <cmath>

#include "sim/output/little_endian.h"
#include "sim/output/solid_files.h"

namespace firstoff {

namespace {

using Corner = std::array<float, 3>;

Corner single(const MeshPoint& p) {
    return {static_cast<float>(p.x), static_cast<float>(p.y), static_cast<float>(p.z)};
}

Corner unitNormal(const MeshPoint& a, const MeshPoint& b, const MeshPoint& c) {
    const double ux = b.x - a.x, uy = b.y - a.y, uz = b.z - a.z;
    const double vx = c.x - a.x, vy = c.y - a.y, vz = c.z - a.z;
    const double nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
    const double size = std::sqrt(nx * nx + ny * ny + nz * nz);
    if (!(size > 0)) return {0, 0, 0};  // readers work it out from the corners
    return {static_cast<float>(nx / size), static_cast<float>(ny / size), static_cast<float>(nz / size)};
}

void put(std::string& bytes, const Corner& corner) {
    for (float value : corner) putFloat(bytes, value);
}

}  // namespace

std::string stlFile(const std::vector<SolidBody>& bodies) {
    constexpr std::size_t kHeader = 80, kRecord = 50;
    std::size_t most = 0;
    for (const SolidBody& body : bodies) most += body.mesh.triangles.size();
    std::string bytes = "firstoff; mm; Z along the spindle axis";
    bytes.resize(kHeader, ' ');
    bytes.reserve(kHeader + 4 + most * kRecord);
    put32(bytes, 0);
    std::uint32_t count = 0;
    for (const SolidBody& body : bodies) {
        for (const MeshTriangle& t : body.mesh.triangles) {
            const MeshPoint& a = body.mesh.points[t.corners[0]];
            const MeshPoint& b = body.mesh.points[t.corners[1]];
            const MeshPoint& c = body.mesh.points[t.corners[2]];
            const Corner sa = single(a), sb = single(b), sc = single(c);
            if (sa == sb || sb == sc || sc == sa) continue;
            put(bytes, unitNormal(a, b, c));
            put(bytes, sa);
            put(bytes, sb);
            put(bytes, sc);
            put16(bytes, 0);
            ++count;
        }
    }
    std::string figure;
    put32(figure, count);
    return bytes.replace(kHeader, 4, figure);
}

}  // namespace firstoff
