// A convex solid: what bodies are made of where distances are exact.
#pragma once

#include <vector>

#include "sim/base/outline.h"
#include "sim/base/space.h"

namespace firstoff {

// Either a polyhedron, or a solid turned about an axis parallel to Z. Frame: the carrier's of the body it belongs to.
struct ConvexPiece {
    // Of a polyhedron, in any order; a triangle of a mesh is one with three. Empty: turned.
    std::vector<SpacePoint> corners;
    // Turned: corners of a convex half-section, distance from the piece's own axis as r >= 0.
    std::vector<Point> halfSection;
    double axisR = 0, axisY = 0;  // where that axis runs

    bool isTurned() const { return corners.empty(); }
};

struct SpaceBox {
    SpacePoint min, max;
};
SpaceBox boundingBox(const ConvexPiece& piece);

ConvexPiece boxPiece(SpacePoint min, SpacePoint max);
// `halfSection` convex, about the axis at (axisR, axisY).
ConvexPiece turnedPiece(std::vector<Point> halfSection, double axisR = 0, double axisY = 0);
ConvexPiece cylinderPiece(double zFrom, double zTo, double radius, double axisR = 0, double axisY = 0);
// A convex outline of the turning plane, moved by `shift`, from `yFrom` to `yTo`. Arcs become chords that lie outside
// the arc, nowhere further from it than kOutsideMm.
inline constexpr double kOutsideMm = 0.005;
ConvexPiece prismPiece(const Outline& outline, Point shift, double yFrom, double yTo);
// The piece turned about an axis parallel to Z, see turnedAbout().
ConvexPiece turnedAbout(double axisR, double angle, ConvexPiece piece);

}  // namespace firstoff
