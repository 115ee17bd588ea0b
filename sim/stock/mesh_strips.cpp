#include "sim/stock/mesh_strips.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace firstoff {

MeshStrips::MeshStrips(std::span<const double> angles, PartMesh& mesh) : mesh_(mesh) {
    for (std::size_t j = 0; j < angles.size(); ++j) {
        directions_.push_back({std::cos(angles[j]), std::sin(angles[j])});
    }
}

std::uint32_t MeshStrips::put(Point place, const Direction& d) {
    mesh_.points.push_back({place.r * d.cosine, -place.r * d.sine, place.z});
    return static_cast<std::uint32_t>(mesh_.points.size() - 1);
}

std::uint32_t MeshStrips::point(Point place, int meridian) {
    return put(place, directions_[static_cast<std::size_t>(meridian)]);
}

std::uint32_t MeshStrips::pointBetween(Point place, int meridian, int other, double share) {
    const Direction& a = directions_[static_cast<std::size_t>(meridian)];
    const Direction& b = directions_[static_cast<std::size_t>(other)];
    return put(place, {a.cosine + share * (b.cosine - a.cosine), a.sine + share * (b.sine - a.sine)});
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

double MeshStrips::doubleArea(std::uint32_t a, std::uint32_t b, std::uint32_t c) const {
    const MeshPoint& p = mesh_.points[a];
    const MeshPoint& q = mesh_.points[b];
    const MeshPoint& s = mesh_.points[c];
    const double ux = q.x - p.x, uy = q.y - p.y, uz = q.z - p.z;
    const double vx = s.x - p.x, vy = s.y - p.y, vz = s.z - p.z;
    const double nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
    return std::sqrt(nx * nx + ny * ny + nz * nz);
}

std::uint32_t MeshStrips::pole(double z) {
    mesh_.points.push_back({0, 0, z});
    return static_cast<std::uint32_t>(mesh_.points.size() - 1);
}

double MeshStrips::sixfoldVolume(std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) const {
    const MeshPoint& o = mesh_.points[a];
    const auto from = [&](std::uint32_t i) {
        const MeshPoint& p = mesh_.points[i];
        return MeshPoint{p.x - o.x, p.y - o.y, p.z - o.z};
    };
    const MeshPoint u = from(b), v = from(c), w = from(d);
    return u.x * (v.y * w.z - v.z * w.y) + u.y * (v.z * w.x - v.x * w.z) + u.z * (v.x * w.y - v.y * w.x);
}

bool MeshStrips::pierces(std::uint32_t p, std::uint32_t q, const std::array<std::uint32_t, 3>& t) const {
    // Rounding of six times a volume in a cell; below that, things lie in one plane.
    constexpr double kFlat = 1e-11;
    const double atP = sixfoldVolume(t[0], t[1], t[2], p);
    const double atQ = sixfoldVolume(t[0], t[1], t[2], q);
    if (std::abs(atP) < kFlat && std::abs(atQ) < kFlat) return false;
    if (std::min(atP, atQ) > kFlat || std::max(atP, atQ) < -kFlat) return false;
    const double a = sixfoldVolume(p, q, t[0], t[1]);
    const double b = sixfoldVolume(p, q, t[1], t[2]);
    const double c = sixfoldVolume(p, q, t[2], t[0]);
    return std::min({a, b, c}) > -kFlat || std::max({a, b, c}) < kFlat;
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
