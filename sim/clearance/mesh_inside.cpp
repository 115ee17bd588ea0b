#include "sim/clearance/mesh_inside.h"

#include <numeric>

#include "sim/base/units.h"

namespace firstoff {

namespace {

using Data = BodyShape::Data;

constexpr int kMostRays = 12;
// How near to an edge, as a share of the triangle, a ray may pass. Far above the rounding of the products.
constexpr double kEdgeShare = 1e-9;

SpacePoint corner(const Data& mesh, std::uint32_t at) {
    return {mesh.z[at], mesh.r[at], mesh.y[at]};
}

// Directions spread by the golden angle, so that none is likely to lie in a face of a body that someone drew.
SpacePoint rayDirection(int k) {
    const double y = 1 - (2 * k + 1.0) / kMostRays, across = std::sqrt(1 - y * y), at = 1 + k * 2.399963229728653;
    return {across * std::cos(at), across * std::sin(at), y};
}

bool meets(const Data::Node& node, SpacePoint from, SpacePoint d) {
    const std::array<double, 3> o{from.z, from.r, from.y}, u{d.z, d.r, d.y};
    double enter = 0, leave = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < 3; ++k) {
        double a = (double{node.min[k]} - 1e-6 - o[k]) / u[k], b = (double{node.max[k]} + 1e-6 - o[k]) / u[k];
        if (a > b) std::swap(a, b);
        enter = std::max(enter, a);
        leave = std::min(leave, b);
    }
    return enter <= leave;
}

enum class Pass : std::uint8_t { Misses, Outwards, Inwards, Unsure };

Pass passOf(const Data& mesh, const Data::Piece& piece, SpacePoint from, SpacePoint d) {
    const SpacePoint a = corner(mesh, piece.begin), e = corner(mesh, piece.begin + 1) - a,
                     f = corner(mesh, piece.begin + 2) - a, o = from - a;
    const SpacePoint n = cross(e, f);
    const double size = length(n), along = dot(n, d);
    if (!(size > 1e-12 * (dot(e, e) + dot(f, f)))) return Pass::Misses;  // without area: its neighbours are met instead
    if (std::abs(along) < kEdgeShare * size) {
        // The ray lies along the plane of the triangle: it matters only if in it.
        return std::abs(dot(n, o)) > 1e-6 * size ? Pass::Misses : Pass::Unsure;
    }
    const double t = -dot(n, o) / along;
    const SpacePoint q = o + t * d;
    const double u = dot(cross(q, f), n) / (size * size), v = dot(cross(e, q), n) / (size * size);
    const double inside = std::min({u, v, 1 - u - v});
    if (inside < -kEdgeShare) return Pass::Misses;
    if (t < 0) return Pass::Misses;
    if (inside < kEdgeShare) return Pass::Unsure;
    return along > 0 ? Pass::Outwards : Pass::Inwards;
}

// Sum of passes of one ray; none if it is not to be believed.
struct Count {
    bool sure = true;
    int sum = 0;
};

Count countPasses(const Data& mesh, SpacePoint from, SpacePoint d) {
    Count count;
    std::array<std::uint32_t, 64> stack;  // halving leaves no deeper tree than that
    std::size_t top = 0;
    stack[top++] = 0;
    while (top > 0) {
        const Data::Node& node = mesh.nodes[stack[--top]];
        if (!meets(node, from, d)) continue;
        if (node.child != 0) {
            stack[top++] = node.child;
            stack[top++] = node.child + 1;
            continue;
        }
        const Pass pass = passOf(mesh, mesh.pieces[node.piece], from, d);
        if (pass == Pass::Unsure) return {false, 0};
        if (pass == Pass::Outwards) ++count.sum;
        if (pass == Pass::Inwards) --count.sum;
    }
    return count;
}

// The solid angles of all triangles, seen from the point, in turns of the whole sphere: Van Oosterom and Strackee, The
// solid angle of a plane triangle, IEEE Trans. Biomed. Eng. 30, 1983 (from memory). Slow, and right without rays.
double windings(const Data& mesh, SpacePoint p) {
    double sum = 0;
    for (const Data::Piece& piece : mesh.pieces) {
        const SpacePoint a = corner(mesh, piece.begin) - p, b = corner(mesh, piece.begin + 1) - p,
                         c = corner(mesh, piece.begin + 2) - p;
        const double la = length(a), lb = length(b), lc = length(c);
        sum += 2 * std::atan2(dot(a, cross(b, c)), la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
    }
    return sum / (4 * kPi);
}

bool before(SpacePoint a, SpacePoint b) {
    if (a.z != b.z) return a.z < b.z;
    if (a.r != b.r) return a.r < b.r;
    return a.y < b.y;
}

std::size_t rootOf(std::vector<std::size_t>& parent, std::size_t i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
}

// One corner of each shell: triangles belong together that share a corner.
std::vector<SpacePoint> shellSamples(const Data& mesh) {
    std::vector<std::uint32_t> byPlace(mesh.z.size());
    std::iota(byPlace.begin(), byPlace.end(), 0u);
    std::sort(byPlace.begin(), byPlace.end(), [&](std::uint32_t a, std::uint32_t b) {
        const SpacePoint p = corner(mesh, a), q = corner(mesh, b);
        return p == q ? a < b : before(p, q);
    });
    std::vector<std::size_t> pieceOf(mesh.z.size()), parent(mesh.pieces.size());
    std::iota(parent.begin(), parent.end(), std::size_t{0});
    for (std::size_t i = 0; i < mesh.pieces.size(); ++i) {
        for (std::uint32_t k = mesh.pieces[i].begin; k < mesh.pieces[i].end; ++k) pieceOf[k] = i;
    }
    for (std::size_t i = 1; i < byPlace.size(); ++i) {
        if (!(corner(mesh, byPlace[i]) == corner(mesh, byPlace[i - 1]))) continue;
        const std::size_t a = rootOf(parent, pieceOf[byPlace[i]]), b = rootOf(parent, pieceOf[byPlace[i - 1]]);
        parent[std::max(a, b)] = std::min(a, b);
    }
    std::vector<SpacePoint> samples;
    for (std::size_t i = 0; i < mesh.pieces.size(); ++i) {
        if (rootOf(parent, i) == i) samples.push_back(corner(mesh, mesh.pieces[i].begin));
    }
    return samples;
}

}  // namespace

bool isInside(const Data& mesh, SpacePoint p) {
    const SpaceBox& box = mesh.box;
    if (p.z < box.min.z || p.r < box.min.r || p.y < box.min.y || p.z > box.max.z || p.r > box.max.r ||
        p.y > box.max.y) {
        return false;
    }
    for (int k = 0; k < kMostRays; ++k) {
        const Count count = countPasses(mesh, p, rayDirection(k));
        if (count.sure) return count.sum != 0;
    }
    return std::abs(windings(mesh, p)) > 0.5;
}

std::vector<SpacePoint> samplesOf(const Data& data) {
    if (data.isMesh) return shellSamples(data);
    std::vector<SpacePoint> samples;
    for (const Data::Piece& piece : data.pieces) {
        const std::uint32_t i = piece.begin;
        samples.push_back(piece.turned ? SpacePoint{data.z[i], piece.axisR, piece.axisY} : corner(data, i));
    }
    return samples;
}

}  // namespace firstoff
