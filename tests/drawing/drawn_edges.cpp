#include "tests/drawing/drawn_edges.h"

#include <fmt/format.h>

#include <algorithm>

#include "sim/base/contour_geometry.h"

namespace firstoff::shop {

namespace {

bool near(const DrawnEdge& a, const DrawnEdge& b, double tolerance) {
    const bool along = distance(a[0], b[0]) <= tolerance && distance(a[2], b[2]) <= tolerance;
    const bool against = distance(a[0], b[2]) <= tolerance && distance(a[2], b[0]) <= tolerance;
    return (along || against) && distance(a[1], b[1]) <= tolerance;
}

}  // namespace

std::vector<DrawnEdge> edgesOf(const std::vector<DrawnPath>& paths) {
    std::vector<DrawnEdge> edges;
    for (const DrawnPath& path : paths) {
        const std::size_t count = path.closed ? path.corners.size() : path.corners.size() - 1;
        for (std::size_t i = 0; i < count; ++i) {
            const Point a = path.corners[i].at;
            const Point b = edgeEnd(path.corners, i);
            edges.push_back({a, 0.5 * (a + b) - (path.corners[i].bulge / 2) * leftOf(b - a), b});
        }
    }
    return edges;
}

std::string differenceOf(std::vector<DrawnEdge> a, std::vector<DrawnEdge> b, double tolerance) {
    if (a.size() != b.size()) return fmt::format("{} edges against {}", a.size(), b.size());
    for (const DrawnEdge& edge : a) {
        const auto twin =
            std::find_if(b.begin(), b.end(), [&](const DrawnEdge& o) { return near(edge, o, tolerance); });
        if (twin == b.end()) {
            return fmt::format("no twin of the edge from {} {} by {} {} to {} {}", edge[0].z, edge[0].r, edge[1].z,
                               edge[1].r, edge[2].z, edge[2].r);
        }
        b.erase(twin);
    }
    return {};
}

}  // namespace firstoff::shop
