// What a convex outline sweeps on a straight way is the convex hull of its first and its last place, so the way is
// measured in one go.
#include "sim/output/sheets/edge_gap.h"

#include <algorithm>
#include <limits>

namespace firstoff {

namespace {

constexpr double kChordMm = 0.005;

// Anticlockwise (Andrew's monotone chain).
std::vector<Point> hullOf(std::vector<Point> points) {
    std::sort(points.begin(), points.end(), [](Point a, Point b) { return a.z < b.z || (a.z == b.z && a.r < b.r); });
    std::vector<Point> hull;
    for (const bool back : {false, true}) {
        const std::size_t start = hull.size();
        for (Point p : points) {
            while (hull.size() >= start + 2 &&
                   cross(hull.back() - hull[hull.size() - 2], p - hull[hull.size() - 2]) <= 0) {
                hull.pop_back();
            }
            hull.push_back(p);
        }
        hull.pop_back();
        if (!back) std::reverse(points.begin(), points.end());
    }
    return hull;
}

double toSegment(Point p, Point a, Point b) {
    const Point way = b - a;
    const double square = dot(way, way);
    const double share = square > 0 ? std::clamp(dot(p - a, way) / square, 0.0, 1.0) : 0;
    return distance(p, a + share * way);
}

bool doCross(Point a, Point b, Point c, Point d) {
    const double u = cross(b - a, c - a), v = cross(b - a, d - a);
    const double w = cross(d - c, a - c), x = cross(d - c, b - c);
    return u * v < 0 && w * x < 0;
}

double between(Point a, Point b, Point c, Point d) {
    if (doCross(a, b, c, d)) return 0;
    return std::min({toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b)});
}

bool isInside(Point p, const std::vector<Point>& polygon) {
    bool inside = false;
    for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
        const Point a = polygon[j], b = polygon[i];
        if ((a.r <= p.r) != (b.r <= p.r) && p.z < a.z + (b.z - a.z) * (p.r - a.r) / (b.r - a.r)) inside = !inside;
    }
    return inside;
}

double between(const std::vector<Point>& hull, const std::vector<Point>& metal) {
    if (isInside(hull.front(), metal) || isInside(metal.front(), hull)) return 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < metal.size(); ++i) {
        const Point a = metal[i], b = metal[(i + 1) % metal.size()];
        for (std::size_t j = 0; j < hull.size(); ++j) {
            least = std::min(least, between(a, b, hull[j], hull[(j + 1) % hull.size()]));
        }
    }
    return least;
}

}  // namespace

double edgeGap(const Tool& tool, Point from, Point to, const std::vector<Loop>& metal) {
    double least = std::numeric_limits<double>::infinity();
    std::vector<const Outline*> outlines{&tool.cutting};
    for (const Outline& step : tool.steps) outlines.push_back(&step);
    for (const Outline* outline : outlines) {
        if (outline->empty()) continue;
        std::vector<Point> swept;
        for (Point p : polyline(*outline, kChordMm)) {
            swept.push_back(p + from);
            swept.push_back(p + to);
        }
        const std::vector<Point> hull = hullOf(std::move(swept));
        for (const Loop& loop : metal) {
            if (!loop.points.empty()) least = std::min(least, between(hull, loop.points));
        }
    }
    return std::max(0.0, least - kChordMm);
}

}  // namespace firstoff
