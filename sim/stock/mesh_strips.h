// Points and triangles of a part mesh as they are put together: circles, poles on the axis, and strips of triangles
// between paths in neighbouring meridians.
//
// Notation. A path is a run of points in one meridian with the metal to its left (z to the right, r upwards), as in a
// Loop. A strip joins the same path in two neighbouring meridians a and b, b behind a in the order in which they pass
// the tool. Seen from outside the metal b lies to the right of a's direction of travel, which gives the order of
// corners.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/base/point.h"
#include "sim/stock/part_mesh.h"

namespace firstoff {

// Points of a section nearer than this to the axis, or to each other along a path, are one. Far below the tolerance of
// a section, above what a file with single precision can tell apart at 300 mm. Larger: small corners go. Smaller: such
// files get triangles without area.
inline constexpr double kMeshPlaceMm = 1e-4;

// A way round the axis: one point in every meridian, all of them the same one for a pole.
struct MeshRing {
    std::vector<std::uint32_t> at;
    bool pole = false;
};

class MeshStrips {
public:
    // `angles`: of the meridians, in order, rad; at least three.
    MeshStrips(std::span<const double> angles, PartMesh& mesh);

    int meridians() const { return static_cast<int>(directions_.size()); }
    std::uint32_t point(Point place, int meridian);
    std::uint32_t pole(double z);
    // On the straight line from a place in a meridian to the same place in another one, after `share` of it.
    std::uint32_t pointBetween(Point place, int meridian, int other, double share);
    std::uint32_t middle(std::span<const std::uint32_t> points);
    double squareBetween(std::uint32_t a, std::uint32_t b) const;                // square of their distance
    double doubleArea(std::uint32_t a, std::uint32_t b, std::uint32_t c) const;  // twice that of the triangle
    MeshRing ring(Point place);                                                  // a pole for r = 0

    // Does the straight way from p to q, neither of them a corner, go through a triangle or touch it?
    bool pierces(std::uint32_t p, std::uint32_t q, const std::array<std::uint32_t, 3>& triangle) const;

    // Corners may fall together: triangles without area are left out.
    void triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c, CutId cut);
    // The surface that the edge from one ring to the next draws.
    void sweep(const MeshRing& from, const MeshRing& to, CutId cut);

private:
    struct Direction {
        double cosine, sine;
    };
    std::uint32_t put(Point place, const Direction& direction);
    double sixfoldVolume(std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) const;

    std::vector<Direction> directions_;
    PartMesh& mesh_;
};

}  // namespace firstoff
