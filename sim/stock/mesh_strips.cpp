#include "sim/stock/mesh_strips.h"

#include <cmath>
#include <cstddef>

#include "sim/base/units.h"

namespace firstoff {

MeshStrips::MeshStrips(std::span<const double> angles, PartMesh& mesh) : mesh_(mesh) {
    for (std::size_t j = 0; j < angles.size(); ++j) {
        const double next = j + 1 < angles.size() ? angles[j + 1] : angles[0] + 2 * kPi;
        const double between = (angles[j] + next) / 2;
        directions_.push_back({std::cos(angles[j]), std::sin(angles[j])});
        halfWay_.push_back({std::cos(between), std::sin(between)});
    }
}

std::uint32_t MeshStrips::put(Point place, const Direction& d) {
    mesh_.points.push_back({place.r * d.cosine, -place.r * d.sine, place.z});
    return static_cast<std::uint32_t>(mesh_.points.size() - 1);
}

std::uint32_t MeshStrips::point(Point place, int meridian) {
    return put(place, directions_[static_cast<std::size_t>(meridian)]);
}

std::uint32_t MeshStrips::pointBehind(Point place, int meridian) {
    return put(place, halfWay_[static_cast<std::size_t>(meridian)]);
}

std::uint32_t MeshStrips::middle(std::span<const std::uint32_t> points) {
    MeshPoint sum;
    for (std::uint32_t at : points) {
        const MeshPoint& p = mesh_.points[at];
        sum = {sum.x + p.x, sum.y + p.y, sum.z + p.z};
    }
    const auto n = static_cast<double>(points.size());
    mesh_.points.push_back({sum.x / n, sum.y / n, sum.z / n});
    return static_cast<std::uint32_t>(mesh_.points.size() - 1);
}

double MeshStrips::squareBetween(std::uint32_t a, std::uint32_t b) const {
    const MeshPoint& p = mesh_.points[a];
    const MeshPoint& q = mesh_.points[b];
    const double x = q.x - p.x, y = q.y - p.y, z = q.z - p.z;
    return x * x + y * y + z * z;
}

double MeshStrips::squareOfArea(std::uint32_t a, std::uint32_t b, std::uint32_t c) const {
    const MeshPoint& p = mesh_.points[a];
    const MeshPoint& q = mesh_.points[b];
    const MeshPoint& s = mesh_.points[c];
    const double ux = q.x - p.x, uy = q.y - p.y, uz = q.z - p.z;
    const double vx = s.x - p.x, vy = s.y - p.y, vz = s.z - p.z;
    const double nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
    return nx * nx + ny * ny + nz * nz;
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
