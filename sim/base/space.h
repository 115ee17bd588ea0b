// A point or a displacement in the room round the lathe.
//
// z and r as in the turning half-plane (see point.h), r on to the other side of the axis below zero; y across both, so
// that (z, r, y) is right-handed: seen from the tailstock with the turret above, y points to the left. A body turned
// about the spindle axis by the angle t carries (z, r, 0) to (z, r cos t, r sin t).
#pragma once

#include <cmath>

#include "sim/base/point.h"

namespace firstoff {

struct SpacePoint {
    double z = 0, r = 0, y = 0;  // mm

    friend constexpr SpacePoint operator+(SpacePoint a, SpacePoint b) { return {a.z + b.z, a.r + b.r, a.y + b.y}; }
    friend constexpr SpacePoint operator-(SpacePoint a, SpacePoint b) { return {a.z - b.z, a.r - b.r, a.y - b.y}; }
    friend constexpr SpacePoint operator-(SpacePoint a) { return {-a.z, -a.r, -a.y}; }
    friend constexpr SpacePoint operator*(double s, SpacePoint a) { return {s * a.z, s * a.r, s * a.y}; }
    friend constexpr bool operator==(SpacePoint, SpacePoint) = default;
};

constexpr double dot(SpacePoint a, SpacePoint b) {
    return a.z * b.z + a.r * b.r + a.y * b.y;
}
constexpr SpacePoint cross(SpacePoint a, SpacePoint b) {
    return {a.r * b.y - a.y * b.r, a.y * b.z - a.z * b.y, a.z * b.r - a.r * b.z};
}
inline double length(SpacePoint a) {
    return std::sqrt(dot(a, a));
}
inline SpacePoint inSpace(Point p) {
    return {p.z, p.r, 0};
}
// Where a point passes through the turning half-plane when it is turned there about the spindle axis.
inline Point turnedIntoPlane(SpacePoint p) {
    return {p.z, std::hypot(p.r, p.y)};
}
// Turned about an axis parallel to Z through r = `axisR`, y = 0; positive carries r towards y.
inline SpacePoint turnedAbout(double axisR, double angle, SpacePoint p) {
    const double c = std::cos(angle), s = std::sin(angle), r = p.r - axisR;
    return {p.z, axisR + c * r - s * p.y, s * r + c * p.y};
}

}  // namespace firstoff
