// A point or a displacement in the turning half-plane.
//
// Frame: `z` along the spindle axis, positive away from the chuck; `r` is the radius (half of the X that turners write),
// positive towards the turret. Which origin a point is measured from is said where the point is stored: lathe frame
// (z = 0 at the chuck face, r = 0 on the axis), work frame (z = 0 at the datum of a work offset) or tool frame (origin at
// the imaginary tool tip).
#pragma once

#include <cmath>

namespace firstoff {

struct Point {
    double z = 0;  // mm
    double r = 0;  // mm, radius

    friend constexpr Point operator+(Point a, Point b) { return {a.z + b.z, a.r + b.r}; }
    friend constexpr Point operator-(Point a, Point b) { return {a.z - b.z, a.r - b.r}; }
    friend constexpr Point operator-(Point a) { return {-a.z, -a.r}; }
    friend constexpr Point operator*(double s, Point a) { return {s * a.z, s * a.r}; }
    friend constexpr Point operator*(Point a, double s) { return {s * a.z, s * a.r}; }
    friend constexpr bool operator==(Point, Point) = default;
};

constexpr double dot(Point a, Point b) { return a.z * b.z + a.r * b.r; }
// Positive when `b` lies anticlockwise of `a`, seen with z to the right and r upwards.
constexpr double cross(Point a, Point b) { return a.z * b.r - a.r * b.z; }
inline double length(Point a) { return std::hypot(a.z, a.r); }
inline double distance(Point a, Point b) { return length(b - a); }
// `a` turned a quarter turn anticlockwise (z right, r up): the left of the direction of travel.
constexpr Point leftOf(Point a) { return {-a.r, a.z}; }

}  // namespace firstoff
