#include "tests/support/geos_stock.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sim/base/units.h"

namespace firstoff::shop {

namespace {

std::vector<Point> walked(const Sweep& sweep, double chordError) {
    if (sweep.path == Sweep::Path::Line) return {sweep.from, sweep.to};
    const Point a = sweep.from - sweep.centre;
    const Point b = sweep.to - sweep.centre;
    const bool clockwise = sweep.path == Sweep::Path::ArcClockwise;
    const double radius = length(a);
    double turn = std::atan2(cross(a, b), dot(a, b)) * (clockwise ? -1 : 1);
    if (turn <= 0) turn += 2 * kPi;
    const double step = 2 * std::acos(1 - chordError / radius);
    const int count = static_cast<int>(std::ceil(turn / step));
    std::vector<Point> points;
    for (int i = 0; i <= count; ++i) {
        const double angle = std::atan2(a.r, a.z) + (clockwise ? -turn : turn) * i / count;
        points.push_back(sweep.centre + radius * Point{std::cos(angle), std::sin(angle)});
    }
    return points;
}

std::vector<Point> dense(const std::vector<Point>& ring, double step) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i];
        const Point b = ring[(i + 1) % ring.size()];
        const int count = std::max(1, static_cast<int>(std::ceil(distance(a, b) / step)));
        for (int k = 0; k < count; ++k) points.push_back(a + (static_cast<double>(k) / count) * (b - a));
    }
    return points;
}

}  // namespace

GeosStock::GeosStock(double backZ, double frontZ, double boreRadius, double outerRadius) : context_(GEOS_init_r()) {
    metal_ = ring({{backZ, boreRadius}, {frontZ, boreRadius}, {frontZ, outerRadius}, {backZ, outerRadius}});
}

GeosStock::~GeosStock() {
    GEOSGeom_destroy_r(context_, metal_);
    GEOS_finish_r(context_);
}

GEOSGeometry* GeosStock::ring(const std::vector<Point>& points) const {
    const auto n = static_cast<unsigned>(points.size());
    GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(context_, n + 1, 2);
    for (unsigned i = 0; i <= n; ++i) GEOSCoordSeq_setXY_r(context_, sequence, i, points[i % n].z, points[i % n].r);
    return GEOSGeom_createPolygon_r(context_, GEOSGeom_createLinearRing_r(context_, sequence), nullptr, 0);
}

GEOSGeometry* GeosStock::hull(const std::vector<Point>& points) const {
    const auto n = static_cast<unsigned>(points.size());
    GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(context_, n, 2);
    for (unsigned i = 0; i < n; ++i) GEOSCoordSeq_setXY_r(context_, sequence, i, points[i].z, points[i].r);
    GEOSGeometry* line = GEOSGeom_createLineString_r(context_, sequence);
    GEOSGeometry* result = GEOSConvexHull_r(context_, line);
    GEOSGeom_destroy_r(context_, line);
    return result;
}

void GeosStock::cut(const Sweep& sweep, const std::vector<Point>& tool, double chordErrorMm) {
    const std::vector<Point> path = walked(sweep, chordErrorMm);
    std::vector<GEOSGeometry*> steps;
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        std::vector<Point> points;
        for (Point p : tool) points.push_back(path[i] + p);
        for (Point p : tool) points.push_back(path[i + 1] + p);
        steps.push_back(hull(points));
    }
    GEOSGeometry* swept = steps.front();
    if (steps.size() > 1) {
        GEOSGeometry* all = GEOSGeom_createCollection_r(context_, GEOS_GEOMETRYCOLLECTION, steps.data(),
                                                        static_cast<unsigned>(steps.size()));
        swept = GEOSUnaryUnion_r(context_, all);
        GEOSGeom_destroy_r(context_, all);
    }
    GEOSGeometry* left = GEOSDifference_r(context_, metal_, swept);
    GEOSGeom_destroy_r(context_, swept);
    if (!left) throw std::runtime_error("GEOS could not subtract");
    GEOSGeom_destroy_r(context_, metal_);
    metal_ = left;
}

double GeosStock::area() const {
    double area = 0;
    GEOSArea_r(context_, metal_, &area);
    return area;
}

// Both neighbours along z are metal, or neither is.
bool GeosStock::isThinAt(Point p, double thinMm) const {
    const auto inside = [&](double z) {
        GEOSGeometry* point = GEOSGeom_createPointFromXY_r(context_, z, p.r);
        const bool result = GEOSIntersects_r(context_, metal_, point) == 1;
        GEOSGeom_destroy_r(context_, point);
        return result;
    };
    return inside(p.z - thinMm) == inside(p.z + thinMm) && inside(p.z) != inside(p.z - thinMm);
}

double GeosStock::farthestFrom(const std::vector<Loop>& loops, double stepMm, double thinMm) const {
    std::vector<std::vector<Point>> theirs;
    const auto takeRing = [&](const GEOSGeometry* ringGeometry) {
        const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(context_, ringGeometry);
        unsigned n = 0;
        GEOSCoordSeq_getSize_r(context_, sequence, &n);
        std::vector<Point> points;
        for (unsigned i = 0; i + 1 < n; ++i) {
            Point p;
            GEOSCoordSeq_getXY_r(context_, sequence, i, &p.z, &p.r);
            points.push_back(p);
        }
        theirs.push_back(points);
    };
    for (int g = 0; g < GEOSGetNumGeometries_r(context_, metal_); ++g) {
        const GEOSGeometry* polygon = GEOSGetGeometryN_r(context_, metal_, g);
        if (GEOSisEmpty_r(context_, polygon)) continue;
        takeRing(GEOSGetExteriorRing_r(context_, polygon));
        for (int h = 0; h < GEOSGetNumInteriorRings_r(context_, polygon); ++h) {
            takeRing(GEOSGetInteriorRingN_r(context_, polygon, h));
        }
    }
    const auto boundary = [&](const std::vector<std::vector<Point>>& rings) {
        std::vector<GEOSGeometry*> lines;
        for (const std::vector<Point>& r : rings) {
            const auto n = static_cast<unsigned>(r.size());
            GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(context_, n + 1, 2);
            for (unsigned i = 0; i <= n; ++i) GEOSCoordSeq_setXY_r(context_, sequence, i, r[i % n].z, r[i % n].r);
            lines.push_back(GEOSGeom_createLineString_r(context_, sequence));
        }
        return GEOSGeom_createCollection_r(context_, GEOS_MULTILINESTRING, lines.data(),
                                           static_cast<unsigned>(lines.size()));
    };
    double farthest = 0;
    const auto measure = [&](const std::vector<std::vector<Point>>& rings, GEOSGeometry* to) {
        const GEOSPreparedGeometry* prepared = GEOSPrepare_r(context_, to);
        for (const std::vector<Point>& r : rings) {
            for (Point p : dense(r, stepMm)) {
                GEOSGeometry* point = GEOSGeom_createPointFromXY_r(context_, p.z, p.r);
                double d = 0;
                GEOSPreparedDistance_r(context_, prepared, point, &d);
                GEOSGeom_destroy_r(context_, point);
                if (d > farthest && !isThinAt(p, thinMm)) farthest = d;
            }
        }
        GEOSPreparedGeom_destroy_r(context_, prepared);
    };
    std::vector<std::vector<Point>> ours;
    for (const Loop& loop : loops) ours.push_back(loop.points);
    if (ours.empty() || theirs.empty()) return ours.empty() == theirs.empty() ? 0 : 1e9;
    GEOSGeometry* ourLines = boundary(ours);
    GEOSGeometry* theirLines = boundary(theirs);
    measure(ours, theirLines);
    measure(theirs, ourLines);
    GEOSGeom_destroy_r(context_, ourLines);
    GEOSGeom_destroy_r(context_, theirLines);
    return farthest;
}

}  // namespace firstoff::shop
