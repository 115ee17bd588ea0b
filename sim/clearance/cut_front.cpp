#include "sim/clearance/cut_front.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/clearance/contact_zone.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

// Chords of the edge's arcs; they lie inside it, by no more than this, which is taken off the gap.
constexpr double kChordMm = 0.001;
constexpr double kInf = std::numeric_limits<double>::infinity();

struct Span {
    double min = kInf, max = -kInf;
    void take(double v) {
        min = std::min(min, v);
        max = std::max(max, v);
    }
    bool empty() const { return max < min; }
};

// Lateral places of a rectangle that is cut down to those of the edge.
void takeRectangle(Span& lateral, Point n, Point tip, Span edge, double z0, double z1, double inner, double outer) {
    Span all;
    for (Point corner : {Point{z0, inner}, Point{z1, inner}, Point{z0, outer}, Point{z1, outer}}) {
        all.take(dot(corner - tip, n));
    }
    if (all.max < edge.min || all.min > edge.max) return;
    lateral.take(std::max(all.min, edge.min));
    lateral.take(std::min(all.max, edge.max));
}

// Lateral places at which the billet has metal in the way of the edge. By chunks, and at both ends by columns.
Span metalInTheWay(const Billet& before, const Outline& edge, Span edgeLateral, Point n, Point from, Point to) {
    const Box box = boundingBox(edge);
    const Grid& grid = before.grid();
    const double zLow = std::min(from.z, to.z) + box.zMin - grid.pitch;
    const double zHigh = std::max(from.z, to.z) + box.zMax + grid.pitch;
    const double rLow = std::min(from.r, to.r) + box.rMin, rHigh = std::max(from.r, to.r) + box.rMax;
    const int first = std::clamp(grid.columnNear(zLow), 0, grid.columns - 1);
    const int last = std::clamp(grid.columnNear(zHigh), 0, grid.columns - 1);
    if (zHigh < grid.z0 || zLow > grid.border(grid.columns)) return {};
    Span lateral;
    for (int chunk = first / kChunkColumns; chunk <= last / kChunkColumns; ++chunk) {
        const ChunkBounds& bounds = before.bounds(chunk);
        if (bounds.maxOuter <= 0) continue;
        const double inner = std::max(bounds.minInner, rLow), outer = std::min(bounds.maxOuter, rHigh);
        if (inner > outer) continue;
        // Of a chunk that ends the metal, or that the way ends in, only the columns that count.
        const bool whole =
            bounds.minOuter > 0 && chunk * kChunkColumns >= first && (chunk + 1) * kChunkColumns - 1 <= last;
        int from0 = chunk * kChunkColumns, to0 = std::min(from0 + kChunkColumns, grid.columns) - 1;
        if (!whole) {
            from0 = std::max(from0, first);
            to0 = std::min(to0, last);
            const Chunk& columns = before.chunk(chunk);
            const auto empty = [&](int column) {
                return columns.outer.r[static_cast<std::size_t>(column % kChunkColumns)] <= 0;
            };
            while (from0 <= to0 && empty(from0)) ++from0;
            while (to0 >= from0 && empty(to0)) --to0;
            if (from0 > to0) continue;
        }
        takeRectangle(lateral, n, from, edgeLateral, grid.border(from0), grid.border(to0 + 1), inner, outer);
    }
    return lateral;
}

// A stretch of the edge's front between two lateral places; nothing if it lies outside of them.
bool clip(Point& a, Point& b, Point n, Span lateral) {
    double va = dot(a, n), vb = dot(b, n);
    if (va > vb) {
        std::swap(a, b);
        std::swap(va, vb);
    }
    if (vb < lateral.min || va > lateral.max) return false;
    const Point way = b - a;
    const double span = vb - va;
    const Point start = a;
    if (span > 0) {
        if (va < lateral.min) a = start + ((lateral.min - va) / span) * way;
        if (vb > lateral.max) b = start + ((lateral.max - va) / span) * way;
    }
    return true;
}

}  // namespace

double gapToCutFront(const Billet& before, const Outline& edge, const Outline& holder, Point from, Point to) {
    const Point way = to - from;
    const double travel = length(way);
    if (travel <= 0 || edge.empty() || holder.empty()) return kInf;
    const Point u = (1 / travel) * way;
    const Point n = leftOf(u);
    const std::vector<Point> corners = polyline(edge, kChordMm);
    Span edgeLateral;
    for (Point p : corners) edgeLateral.take(dot(p, n));
    const Span lateral = metalInTheWay(before, edge, edgeLateral, n, from, to);
    if (lateral.empty()) return kInf;
    double gap = kInf;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        Point a = corners[i], b = corners[(i + 1) % corners.size()];
        // Anticlockwise: the outward normal lies to the right of the way round.
        if (dot(-leftOf(b - a), u) <= 0) continue;
        if (!clip(a, b, n, lateral)) continue;
        const Point ahead = travel * u;
        // As a strip with some width, since a polygon must have an area.
        if (std::abs(dot(b - a, n)) < 1e-6) b = a + 1e-6 * n;
        std::vector<Point> strip{a, b, b + ahead, a + ahead};
        if (cross(strip[1] - strip[0], strip[2] - strip[0]) < 0) std::swap(strip[1], strip[3]);
        gap = std::min(gap, ContactZone(strip, holder).at({0, 0}).gap);
    }
    return gap - kChordMm;
}

}  // namespace firstoff
