#include "sim/clearance/convex_piece.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "sim/base/units.h"

namespace firstoff {

namespace {

void grow(SpaceBox& box, SpacePoint p) {
    box.min = {std::min(box.min.z, p.z), std::min(box.min.r, p.r), std::min(box.min.y, p.y)};
    box.max = {std::max(box.max.z, p.z), std::max(box.max.r, p.r), std::max(box.max.y, p.y)};
}

// Corners of a polygon round the outline: arcs as tangents, whose corners lie outside by no more than `outside`.
std::vector<Point> polygonAround(const Outline& outline, double outside) {
    std::vector<Point> corners;
    for (const OutlineElement& e : outline.elements) {
        corners.push_back(e.from);
        if (e.radius <= 0) continue;
        const Point a = e.from - e.centre, b = e.to - e.centre;
        const double turn = std::atan2(cross(a, b), dot(a, b));
        const double step = 2 * std::acos(e.radius / (e.radius + outside));
        const int parts = std::max(1, static_cast<int>(std::ceil(turn / step)));
        const double half = turn / parts / 2;
        const double start = std::atan2(a.r, a.z);
        for (int i = 0; i < parts; ++i) {
            const double at = start + (2 * i + 1) * half;
            corners.push_back(e.centre + e.radius / std::cos(half) * Point{std::cos(at), std::sin(at)});
        }
    }
    return corners;
}

}  // namespace

SpaceBox boundingBox(const ConvexPiece& piece) {
    SpaceBox box;
    if (!piece.isTurned()) {
        box = {piece.corners.front(), piece.corners.front()};
        for (const SpacePoint& p : piece.corners) grow(box, p);
        return box;
    }
    assert(!piece.halfSection.empty());
    const Point first = piece.halfSection.front();
    box = {{first.z, piece.axisR - first.r, piece.axisY - first.r},
           {first.z, piece.axisR + first.r, piece.axisY + first.r}};
    for (const Point& p : piece.halfSection) {
        grow(box, {p.z, piece.axisR - p.r, piece.axisY - p.r});
        grow(box, {p.z, piece.axisR + p.r, piece.axisY + p.r});
    }
    return box;
}

ConvexPiece boxPiece(SpacePoint min, SpacePoint max) {
    ConvexPiece piece;
    for (int i = 0; i < 8; ++i) {
        piece.corners.push_back({i & 1 ? max.z : min.z, i & 2 ? max.r : min.r, i & 4 ? max.y : min.y});
    }
    return piece;
}

ConvexPiece turnedPiece(std::vector<Point> halfSection, double axisR, double axisY) {
    assert(!halfSection.empty());
    ConvexPiece piece;
    piece.halfSection = std::move(halfSection);
    piece.axisR = axisR;
    piece.axisY = axisY;
    return piece;
}

ConvexPiece cylinderPiece(double zFrom, double zTo, double radius, double axisR, double axisY) {
    return turnedPiece({{zFrom, radius}, {zTo, radius}}, axisR, axisY);
}

ConvexPiece prismPiece(const Outline& outline, Point shift, double yFrom, double yTo) {
    ConvexPiece piece;
    for (const Point& p : polygonAround(outline, kOutsideMm)) {
        const Point q = p + shift;
        piece.corners.push_back({q.z, q.r, yFrom});
        piece.corners.push_back({q.z, q.r, yTo});
    }
    return piece;
}

ConvexPiece turnedAbout(double axisR, double angle, ConvexPiece piece) {
    for (SpacePoint& p : piece.corners) p = turnedAbout(axisR, angle, p);
    const SpacePoint axis = turnedAbout(axisR, angle, SpacePoint{0, piece.axisR, piece.axisY});
    piece.axisR = axis.r;
    piece.axisY = axis.y;
    return piece;
}

}  // namespace firstoff
