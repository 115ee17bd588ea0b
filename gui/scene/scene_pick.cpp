// Notation. The ray is o + t d, t > 0, in the scene frame (x along the spindle). An edge of a half-section from (z0,
// r0) to (z1, r1) sweeps a cone with r(z) = r0 + k (z - z0); the ray meets it where y² + z² = r(x)², a quadratic in t.
// An edge square to the axis sweeps a ring in the plane x = z0.
#include "gui/scene/scene_pick.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

struct Nearest {
    int piece = 0;  // whose surfaces are being met
    std::optional<RayHit> hit;

    void take(double t, Point place, CutId cut, bool sectionFace) {
        if (t <= 0 || (hit && t >= static_cast<double>(hit->distance))) return;
        hit = RayHit{static_cast<float>(t), {place, cut, piece, sectionFace}};
    }
};

struct LongRay {
    glm::dvec3 o, d;
    glm::dvec3 at(double t) const { return o + t * d; }
};

bool isCutAway(Cutaway cutaway, glm::dvec3 p) {
    switch (cutaway) {
        case Cutaway::Quarter:
            return p.y > 0 && p.z > 0;
        case Cutaway::Half:
            return p.z > 0;
        case Cutaway::None:
            break;
    }
    return false;
}

void meetRing(const LongRay& ray, Point a, Point b, CutId cut, Cutaway cutaway, Nearest& nearest) {
    if (std::abs(ray.d.x) < 1e-12) return;
    const double t = (a.z - ray.o.x) / ray.d.x;
    const glm::dvec3 p = ray.at(t);
    const double r = std::hypot(p.y, p.z);
    const auto [low, high] = std::minmax(a.r, b.r);
    if (r < low || r > high || isCutAway(cutaway, p)) return;
    nearest.take(t, {a.z, r}, cut, false);
}

void meetCone(const LongRay& ray, Point a, Point b, CutId cut, Cutaway cutaway, Nearest& nearest) {
    const double k = (b.r - a.r) / (b.z - a.z);
    const double base = a.r + k * (ray.o.x - a.z);  // r(x) = base + k d.x t
    const double qa = ray.d.y * ray.d.y + ray.d.z * ray.d.z - k * k * ray.d.x * ray.d.x;
    const double qb = ray.o.y * ray.d.y + ray.o.z * ray.d.z - base * k * ray.d.x;
    const double qc = ray.o.y * ray.o.y + ray.o.z * ray.o.z - base * base;
    const double discriminant = qb * qb - qa * qc;
    if (discriminant < 0 || std::abs(qa) < 1e-15) return;
    const double root = std::sqrt(discriminant);
    const auto [zLow, zHigh] = std::minmax(a.z, b.z);
    for (double t : {(-qb - root) / qa, (-qb + root) / qa}) {
        const glm::dvec3 p = ray.at(t);
        if (p.x < zLow || p.x > zHigh || base + k * ray.d.x * t < 0 || isCutAway(cutaway, p)) continue;
        nearest.take(t, {p.x, std::hypot(p.y, p.z)}, cut, false);
    }
}

// The piece whose section holds `p`, if any.
std::optional<int> pieceAt(std::span<const Loop> loops, int fromPiece, Point p) {
    std::optional<int> piece;
    bool inside = false;
    for (const Loop& loop : loops) {
        if (std::min(loop.piece, 1) != fromPiece) continue;
        const std::size_t n = loop.points.size();
        for (std::size_t i = 0; i < n; ++i) {
            const Point a = loop.points[i], b = loop.points[(i + 1) % n];
            if ((a.r > p.r) == (b.r > p.r)) continue;
            if (p.z >= a.z + (b.z - a.z) * (p.r - a.r) / (b.r - a.r)) continue;
            inside = !inside;
            piece = loop.piece;
        }
    }
    return inside ? piece : std::nullopt;
}

void meetFace(const LongRay& ray, std::span<const Loop> loops, int fromPiece, double angle, Nearest& nearest) {
    const glm::dvec3 outwards(0, std::cos(angle), std::sin(angle));
    const glm::dvec3 normal(0, -std::sin(angle), std::cos(angle));
    const double rate = glm::dot(ray.d, normal);
    if (std::abs(rate) < 1e-12) return;
    const double t = -glm::dot(ray.o, normal) / rate;
    const glm::dvec3 p = ray.at(t);
    const Point place{p.x, glm::dot(p, outwards)};
    if (place.r < 0) return;
    const std::optional<int> piece = pieceAt(loops, fromPiece, place);
    if (!piece) return;
    nearest.piece = *piece;
    nearest.take(t, place, kUncut, true);
}

}  // namespace

std::optional<RayHit> hitTurned(std::span<const Loop> loops, int fromPiece, Cutaway cutaway, const Ray& ray) {
    const LongRay exact{glm::dvec3(ray.origin), glm::dvec3(ray.direction)};
    Nearest nearest;
    for (const Loop& loop : loops) {
        if (std::min(loop.piece, 1) != fromPiece) continue;
        nearest.piece = loop.piece;
        const std::size_t n = loop.points.size();
        for (std::size_t i = 0; i < n; ++i) {
            const Point a = loop.points[i], b = loop.points[(i + 1) % n];
            if (a.r <= 0 && b.r <= 0) continue;
            const CutId cut = i < loop.cuts.size() ? loop.cuts[i] : kUncut;
            if (std::abs(b.z - a.z) < tolerance::kSamePlaceMm) {
                meetRing(exact, a, b, cut, cutaway, nearest);
            } else {
                meetCone(exact, a, b, cut, cutaway, nearest);
            }
        }
    }
    if (cutaway != Cutaway::None) {
        const KeptSweep sweep = keptSweep(cutaway);
        meetFace(exact, loops, fromPiece, sweep.from, nearest);
        meetFace(exact, loops, fromPiece, sweep.to, nearest);
    }
    return nearest.hit;
}

// After T. Möller and B. Trumbore, "Fast, minimum storage ray/triangle intersection", 1997.
Stretch throughCutaway(Cutaway cutaway, const Ray& ray) {
    constexpr float kFar = 1e6f;
    if (cutaway == Cutaway::None) return {};
    Stretch empty{0, kFar};
    // The half-space above a plane through the axis.
    const auto within = [&](float from, float way) {
        if (std::abs(way) < 1e-9f) {
            if (from <= 0) empty.to = 0;
            return;
        }
        const float at = -from / way;
        if (way > 0) {
            empty.from = std::max(empty.from, at);
        } else {
            empty.to = std::min(empty.to, at);
        }
    };
    within(ray.origin.z, ray.direction.z);
    if (cutaway == Cutaway::Quarter) within(ray.origin.y, ray.direction.y);
    return empty.to > empty.from ? empty : Stretch{};
}

std::optional<float> hitMesh(const TriangleMesh& mesh, const glm::mat4& model, const Ray& ray) {
    const glm::mat4 back = glm::inverse(model);
    const glm::vec3 o(back * glm::vec4(ray.origin, 1));
    const glm::vec3 d(back * glm::vec4(ray.direction, 0));
    std::optional<float> nearest;
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        const glm::vec3 a = mesh.vertices[mesh.indices[i]].place;
        const glm::vec3 e1 = mesh.vertices[mesh.indices[i + 1]].place - a;
        const glm::vec3 e2 = mesh.vertices[mesh.indices[i + 2]].place - a;
        const glm::vec3 p = glm::cross(d, e2);
        const float determinant = glm::dot(e1, p);
        if (std::abs(determinant) < 1e-9f) continue;
        const glm::vec3 s = o - a;
        const float u = glm::dot(s, p) / determinant;
        const glm::vec3 q = glm::cross(s, e1);
        const float v = glm::dot(d, q) / determinant;
        const float t = glm::dot(e2, q) / determinant;
        if (u < 0 || v < 0 || u + v > 1 || t <= 0) continue;
        if (!nearest || t < *nearest) nearest = t;
    }
    return nearest;
}

}  // namespace firstoff::gui
