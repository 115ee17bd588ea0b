#include "sim/inspection/moved_surface.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

constexpr double kShortestMm = 0.5;
constexpr double kOnItMm = 1e-4;  // rounding of gauged places
// Two edges in one line, as of a cut in two moves; as sine of the angle between them.
constexpr double kInLine = 1e-3;

bool goesOn(const OutlineEdge& a, const OutlineEdge& b) {
    if (!a.straight() || !b.straight()) return false;
    const Point u = directionAt(a, a.to), v = directionAt(b, b.from);
    return std::abs(u.z * v.r - u.r * v.z) <= kInLine && u.z * v.z + u.r * v.r > 0;
}

}  // namespace

std::vector<MovedSurface> surfacesWithoutDimension(const PartOutline& part, int offset, bool inX,
                                                   const std::vector<Point>& held,
                                                   const std::function<int(CutId)>& offsetOf) {
    const std::vector<OutlineEdge>& edges = part.edges();
    std::vector<bool> seen(edges.size(), false);
    const auto wanted = [&](const OutlineEdge& e) {
        if (!e.straight() || offsetOf(e.cut) != offset) return false;
        constexpr double kSquare = 0.0087;  // half a degree, as gauging takes faces
        const Point way = directionAt(e, e.from);
        return (std::abs(way.z) <= kSquare) != inX;
    };
    const auto isHeld = [&](const OutlineEdge& e) {
        return std::any_of(held.begin(), held.end(), [&](Point p) { return distanceTo(e, p) <= kOnItMm; });
    };
    std::vector<MovedSurface> found;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        if (seen[i] || !wanted(edges[i])) continue;
        std::size_t first = i;
        for (std::size_t count = 0; count < edges.size(); ++count) {
            const std::size_t before = edges[first].before;
            if (before == first || before == i || !wanted(edges[before]) || !goesOn(edges[before], edges[first])) break;
            first = before;
        }
        bool anyHeld = false;
        std::size_t last = first;
        for (std::size_t count = 0; count < edges.size(); ++count) {
            seen[last] = true;
            anyHeld |= isHeld(edges[last]);
            const std::size_t after = edges[last].after;
            if (after == last || after == first || !wanted(edges[after]) || !goesOn(edges[last], edges[after])) break;
            last = after;
        }
        const Point way = edges[last].to - edges[first].from;
        if (!anyHeld && std::hypot(way.z, way.r) >= kShortestMm) found.push_back({edges[first].from, edges[last].to});
    }
    return found;
}

}  // namespace firstoff
