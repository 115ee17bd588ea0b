#include "sim/stock/mesh_strips.h"

#include <cmath>
#include <cstddef>

namespace firstoff {

MeshStrips::MeshStrips(std::span<const double> angles, PartMesh& mesh) : mesh_(mesh) {
    for (double angle : angles) directions_.push_back({std::cos(angle), std::sin(angle)});
}

std::uint32_t MeshStrips::point(Point place, int meridian) {
    const Direction& d = directions_[static_cast<std::size_t>(meridian)];
    mesh_.points.push_back({place.r * d.cosine, -place.r * d.sine, place.z});
    return static_cast<std::uint32_t>(mesh_.points.size() - 1);
}

std::uint32_t MeshStrips::pole(double z) {
    mesh_.points.push_back({0, 0, z});
    return static_cast<std::uint32_t>(mesh_.points.size() - 1);
}

MeshRing MeshStrips::ring(Point place) {
    MeshRing ring;
    ring.pole = place.r == 0;
    const std::uint32_t only = ring.pole ? pole(place.z) : 0;
    for (int j = 0; j < meridians(); ++j) ring.at.push_back(ring.pole ? only : point(place, j));
    return ring;
}

void MeshStrips::triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c, CutId cut) {
    if (a == b || b == c || c == a) return;
    mesh_.triangles.push_back({{a, b, c}, cut});
}

void MeshStrips::sweep(const MeshRing& from, const MeshRing& to, CutId cut) {
    if (from.pole && to.pole) return;
    const std::size_t n = from.at.size();
    for (std::size_t j = 0; j < n; ++j) {
        const std::size_t k = j + 1 < n ? j + 1 : 0;
        triangle(from.at[j], to.at[k], to.at[j], cut);
        triangle(from.at[j], from.at[k], to.at[k], cut);
    }
}

}  // namespace firstoff
