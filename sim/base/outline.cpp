#include "sim/base/outline.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

// Angle swept anticlockwise from `from` to `to` around `centre`, in (0, 2 pi].
double sweepAngle(Point centre, Point from, Point to) {
    const Point a = from - centre;
    const Point b = to - centre;
    double angle = std::atan2(cross(a, b), dot(a, b));
    if (angle <= 0) angle += 2 * kPi;
    return angle;
}

}  // namespace

Box boundingBox(const Outline& outline) {
    constexpr double inf = std::numeric_limits<double>::infinity();
    Box box{inf, -inf, inf, -inf};
    const auto take = [&box](Point p) {
        box.zMin = std::min(box.zMin, p.z);
        box.zMax = std::max(box.zMax, p.z);
        box.rMin = std::min(box.rMin, p.r);
        box.rMax = std::max(box.rMax, p.r);
    };
    for (const OutlineElement& e : outline.elements) {
        take(e.from);
        take(e.to);
        if (e.radius == 0) continue;
        const double turn = sweepAngle(e.centre, e.from, e.to);
        constexpr Point kSides[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
        for (Point side : kSides) {
            const Point p = e.centre + e.radius * side;
            if (sweepAngle(e.centre, e.from, p) <= turn) take(p);
        }
    }
    return box;
}

Outline roundedPolygon(const std::vector<Point>& corners, const std::vector<double>& radii) {
    assert(corners.size() >= 3 && corners.size() == radii.size());
    const std::size_t n = corners.size();
    struct Corner {
        Point in, out, centre;
        double radius;
    };
    std::vector<Corner> rounded(n);
    for (std::size_t i = 0; i < n; ++i) {
        const Point before = corners[(i + n - 1) % n];
        const Point here = corners[i];
        const Point after = corners[(i + 1) % n];
        const Point u = (1.0 / distance(before, here)) * (here - before);
        const Point v = (1.0 / distance(here, after)) * (after - here);
        const double radius = radii[i];
        if (radius == 0) {
            rounded[i] = {here, here, here, 0};
            continue;
        }
        const double turn = std::atan2(cross(u, v), dot(u, v));
        const double tangent = radius * std::tan(turn / 2);
        const Point in = here - tangent * u;
        rounded[i] = {in, here + tangent * v, in + radius * leftOf(u), radius};
    }
    Outline outline;
    for (std::size_t i = 0; i < n; ++i) {
        const Corner& c = rounded[i];
        const Corner& next = rounded[(i + 1) % n];
        if (c.radius > 0) outline.elements.push_back({c.in, c.out, c.centre, c.radius, true});
        if (distance(c.out, next.in) > tolerance::kSamePlaceMm) {
            outline.elements.push_back({c.out, next.in, {}, 0, true});
        }
    }
    return outline;
}

std::vector<Point> polyline(const Outline& outline, double chordErrorMm) {
    std::vector<Point> points;
    for (const OutlineElement& e : outline.elements) {
        points.push_back(e.from);
        if (e.radius == 0) continue;
        const double turn = sweepAngle(e.centre, e.from, e.to);
        const double step = 2 * std::acos(std::max(0.0, 1 - chordErrorMm / e.radius));
        const int count = std::max(1, static_cast<int>(std::ceil(turn / step)));
        const double start = std::atan2(e.from.r - e.centre.r, e.from.z - e.centre.z);
        for (int i = 1; i < count; ++i) {
            const double angle = start + turn * i / count;
            points.push_back(e.centre + e.radius * Point{std::cos(angle), std::sin(angle)});
        }
    }
    return points;
}

}  // namespace firstoff
