#include "sim/clearance/cut_front.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/clearance/contact_zone.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

// Chords of the edge's arcs; they lie inside it, by no more than this, which is taken off the gap.
constexpr double kChordMm = 0.001;
// Columns are taken together over a whole chunk where its surfaces are as level as this, else over so many.
constexpr double kLevelMm = 0.01;
constexpr int kFewColumns = 8;
constexpr double kInf = std::numeric_limits<double>::infinity();

struct Span {
    double min = kInf, max = -kInf;
    void take(double v) {
        min = std::min(min, v);
        max = std::max(max, v);
    }
    bool empty() const { return max < min; }
};

// A convex polygon of a few corners, cut down again and again.
class Patch {
public:
    explicit Patch(const Box& b)
        : corners_{Point{b.zMin, b.rMin}, Point{b.zMax, b.rMin}, Point{b.zMax, b.rMax}, Point{b.zMin, b.rMax}},
          count_(4) {}

    // Keeps what lies to the left of the line from a to b.
    void keepLeft(Point a, Point b) {
        std::array<Point, kMost> kept;
        int n = 0;
        for (int i = 0; i < count_; ++i) {
            const Point p = corners_[static_cast<std::size_t>(i)];
            const Point q = corners_[static_cast<std::size_t>((i + 1) % count_)];
            const double sp = cross(b - a, p - a), sq = cross(b - a, q - a);
            if (sp >= 0) kept[static_cast<std::size_t>(n++)] = p;
            if ((sp < 0) != (sq < 0) && n < kMost) kept[static_cast<std::size_t>(n++)] = p + (sp / (sp - sq)) * (q - p);
        }
        corners_ = kept;
        count_ = n;
    }
    void takeLateral(Span& span, Point n, Point origin) const {
        for (int i = 0; i < count_; ++i) span.take(dot(corners_[static_cast<std::size_t>(i)] - origin, n));
    }

private:
    static constexpr int kMost = 16;  // four corners and four cuts make eight
    std::array<Point, kMost> corners_;
    int count_;
};

// What an element of the edge's front, placed at the start, passes over on the way: anticlockwise.
using Strip = std::array<Point, 4>;

Strip stripOf(Point a, Point b, Point ahead) {
    Strip strip{a, b, b + ahead, a + ahead};
    if (cross(strip[1] - strip[0], strip[2] - strip[0]) < 0) std::swap(strip[1], strip[3]);
    return strip;
}

// Lateral places (across the way, from the tip) at which there is metal in a strip.
class MetalInStrip {
public:
    MetalInStrip(const Billet& billet, const Strip& strip, Point n, Point tip)
        : billet_(billet), strip_(strip), n_(n), tip_(tip) {
        box_ = {strip[0].z, strip[0].z, strip[0].r, strip[0].r};
        for (Point p : strip) {
            box_.zMin = std::min(box_.zMin, p.z);
            box_.zMax = std::max(box_.zMax, p.z);
            box_.rMin = std::min(box_.rMin, p.r);
            box_.rMax = std::max(box_.rMax, p.r);
        }
    }

    Span lateral() {
        const Grid& grid = billet_.grid();
        if (box_.zMax < grid.z0 - grid.pitch || box_.zMin > grid.border(grid.columns) + grid.pitch) return {};
        const int first = std::clamp(grid.columnNear(box_.zMin - grid.pitch), 0, grid.columns - 1);
        const int last = std::clamp(grid.columnNear(box_.zMax + grid.pitch), 0, grid.columns - 1);
        for (int chunk = first / kChunkColumns; chunk <= last / kChunkColumns; ++chunk) {
            const ChunkBounds& b = billet_.bounds(chunk);
            if (b.maxOuter <= 0) continue;
            const int from = std::max(first, chunk * kChunkColumns);
            const int to = std::min(last, chunk * kChunkColumns + kChunkColumns - 1);
            if (b.minOuter > 0 && b.maxOuter - b.minOuter <= kLevelMm && b.maxInner - b.minInner <= kLevelMm) {
                take(from, to, b.minInner, b.maxOuter);
            } else {
                takeFew(billet_.chunk(chunk), chunk * kChunkColumns, from, to);
            }
        }
        return span_;
    }

private:
    void takeFew(const Chunk& chunk, int base, int from, int to) {
        for (int group = from; group <= to; group += kFewColumns) {
            Span radii;
            int begin = -1, end = -1;
            for (int column = group; column <= std::min(group + kFewColumns - 1, to); ++column) {
                const auto i = static_cast<std::size_t>(column - base);
                if (chunk.outer.r[i] <= 0) continue;
                if (begin < 0) begin = column;
                end = column;
                radii.take(chunk.outer.r[i]);
                radii.take(chunk.inner ? chunk.inner->r[i] : 0);
            }
            if (begin >= 0) take(begin, end, radii.min, radii.max);
        }
    }

    // On both sides of the axis; a column stands half a pitch to either side.
    void take(int from, int to, double inner, double outer) {
        const Grid& grid = billet_.grid();
        const double half = grid.pitch / 2;
        const double z0 = grid.border(from) - half, z1 = grid.border(to + 1) + half;
        takeBox({z0, z1, inner, outer});
        if (box_.rMin < 0) takeBox({z0, z1, -outer, -inner});
    }

    void takeBox(const Box& b) {
        if (b.rMin > box_.rMax || b.rMax < box_.rMin) return;
        Patch patch(b);
        for (std::size_t i = 0; i < 4; ++i) patch.keepLeft(strip_[i], strip_[(i + 1) % 4]);
        patch.takeLateral(span_, n_, tip_);
    }

    const Billet& billet_;
    const Strip& strip_;
    Point n_, tip_;
    Box box_;
    Span span_;
};

// The part of a stretch of the edge's front between two lateral places.
void clip(Point& a, Point& b, Point n, Span lateral) {
    double va = dot(a, n), vb = dot(b, n);
    if (va > vb) {
        std::swap(a, b);
        std::swap(va, vb);
    }
    const Point start = a, way = b - a;
    const double span = vb - va;
    if (span <= 0) return;
    if (va < lateral.min) a = start + ((lateral.min - va) / span) * way;
    if (vb > lateral.max) b = start + ((lateral.max - va) / span) * way;
}

}  // namespace

double gapToCutFront(const Billet& before, const Outline& edge, const Outline& holder, Point from, Point to) {
    const Point way = to - from;
    const double travel = length(way);
    if (travel <= 0 || edge.empty() || holder.empty()) return kInf;
    const Point u = (1 / travel) * way;
    const Point n = leftOf(u);
    const std::vector<Point> corners = polyline(edge, kChordMm);
    double gap = kInf;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        Point a = corners[i], b = corners[(i + 1) % corners.size()];
        // Anticlockwise: the outward normal lies to the right of the way round.
        if (dot(-leftOf(b - a), u) <= 0) continue;
        // As a strip with some width, since a polygon must have an area.
        if (std::abs(dot(b - a, n)) < 1e-6) b = a + 1e-6 * n;
        const Strip passed = stripOf(a + from, b + from, way);
        const Span lateral = MetalInStrip(before, passed, n, from).lateral();
        if (lateral.empty()) continue;
        clip(a, b, n, lateral);
        if (std::abs(dot(b - a, n)) < 1e-6) b = a + 1e-6 * n;
        const Strip strip = stripOf(a, b, way);
        gap = std::min(gap, ContactZone({strip.begin(), strip.end()}, holder).at({0, 0}).gap);
    }
    return gap - kChordMm;
}

}  // namespace firstoff
