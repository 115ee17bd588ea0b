// Branch and bound over slabs, chunks and halves of chunks down to single columns; each is covered by the rectangle of
// its z and its least and greatest radius, and by the same below the axis.
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/base/outline.h"
#include "sim/clearance/convex_distance.h"
#include "sim/clearance/nearness.h"
#include "sim/clearance/pair_search.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr int kSlabColumns = kSlabChunks * kChunkColumns;
// Columns whose radii differ by no more are taken as the one rectangle they nearly are.
constexpr double kAlikeMm = kNearnessMm / 4;

struct Rectangle {
    double zMin = 0, zMax = 0, rMin = 0, rMax = 0;

    SpacePoint support(SpacePoint d) const { return {d.z < 0 ? zMin : zMax, d.r < 0 ? rMin : rMax, 0}; }
    SpacePoint middle() const { return {(zMin + zMax) / 2, (rMin + rMax) / 2, 0}; }
};

double leastGap(const Box& a, const Rectangle& b) {
    const double z = std::max({0.0, b.zMin - a.zMax, a.zMin - b.zMax});
    const double r = std::max({0.0, b.rMin - a.rMax, a.rMin - b.rMax});
    return std::sqrt(z * z + r * r);
}

// The outline, swept over its shifts.
class SweptOutline {
public:
    SweptOutline(const Outline& outline, const Placing& at) : outline_(outline), at_(at), box_(boundingBox(outline)) {
        Box shifts{kFar, -kFar, kFar, -kFar};
        for (int i = 0; i < at.count; ++i) {
            const Point p = at.shifts[static_cast<std::size_t>(i)];
            shifts.zMin = std::min(shifts.zMin, p.z);
            shifts.zMax = std::max(shifts.zMax, p.z);
            shifts.rMin = std::min(shifts.rMin, p.r);
            shifts.rMax = std::max(shifts.rMax, p.r);
        }
        box_.zMin += shifts.zMin;
        box_.zMax += shifts.zMax;
        box_.rMin += shifts.rMin;
        box_.rMax += shifts.rMax;
    }

    const Box& box() const { return box_; }
    SpacePoint middle() const { return {(box_.zMin + box_.zMax) / 2, (box_.rMin + box_.rMax) / 2, 0}; }

    SpacePoint support(SpacePoint direction) const {
        const Point d{direction.z, direction.r};
        Point best = outline_.elements.front().from;
        double most = -kFar;
        for (const OutlineElement& e : outline_.elements) {
            offer(e.from, d, best, most);
            // An arc is met where its radius points in the direction, if that is on it.
            if (e.radius <= 0 || cross(e.from - e.centre, d) < 0 || cross(d, e.to - e.centre) < 0) continue;
            const double size = std::sqrt(dot(d, d));
            if (size > 0) offer(e.centre + (e.radius / size) * d, d, best, most);
        }
        Point shift = at_.shifts[0];
        most = dot(shift, d);
        for (int i = 1; i < at_.count; ++i) offer(at_.shifts[static_cast<std::size_t>(i)], d, shift, most);
        return inSpace(best + shift);
    }

private:
    static void offer(Point p, Point d, Point& best, double& most) {
        const double m = dot(p, d);
        if (m > most) {
            most = m;
            best = p;
        }
    }

    const Outline& outline_;
    const Placing& at_;
    Box box_;
};

// What stands in a run of columns.
struct Metal {
    double inner = 0, outer = 0;
    bool none = false;
    bool alike = false;  // all of them are that stretch
};

class PlaneSearch {
public:
    PlaneSearch(const Billet& billet, const Outline& outline, const Placing& at, double beyond)
        : billet_(billet), outline_(outline, at), best_(std::max(beyond, kNearnessMm)) {}

    Nearness run() {
        // Slabs that are too far along the axis are not looked at one by one.
        const Grid& grid = billet_.grid();
        const double reach = best_ + grid.pitch;
        const int first = slabAt(outline_.box().zMin - reach), last = slabAt(outline_.box().zMax + reach);
        if (first > 0) passOver(outline_.box().zMin - rectangle(0, first * kSlabColumns, 0, 0).zMax);
        if (last + 1 < grid.slabs()) passOver(rectangle((last + 1) * kSlabColumns, 1, 0, 0).zMin - outline_.box().zMax);
        for (int slab = first; slab <= last; ++slab) {
            const Metal metal{billet_.slabMinInner(slab), billet_.slabMaxOuter(slab), billet_.slabMaxOuter(slab) <= 0,
                              false};
            offer(slab * kSlabColumns, kSlabColumns, metal, {0, 0, 0}, Side::Both);
        }
        while (!heap_.empty() && heap_.front().bound < best_) {
            std::pop_heap(heap_.begin(), heap_.end());
            const Item item = heap_.back();
            heap_.pop_back();
            split(item);
        }
        if (!heap_.empty()) passOver(heap_.front().bound);
        if (!found_) nearest_.gap = passedOver_;
        return nearest_;
    }

private:
    enum class Side : std::uint8_t { Above, Below, Both };

    struct Item {
        double bound = 0;
        int from = 0, count = 0;
        Side side = Side::Above;
        SpacePoint away;
        bool operator<(const Item& other) const { return bound > other.bound; }
    };

    void passOver(double gap) { passedOver_ = std::min(passedOver_, gap); }

    // The slab that holds a place on the axis; the first or the last one beside them.
    int slabAt(double z) const {
        const Grid& grid = billet_.grid();
        const double at = std::floor((z - grid.z0) / (grid.pitch * kSlabColumns));
        const double slab = std::clamp(at, 0.0, static_cast<double>(grid.slabs() - 1));
        return static_cast<int>(slab);
    }

    Rectangle rectangle(int from, int count, double rMin, double rMax) const {
        const Grid& grid = billet_.grid();
        const double half = grid.pitch / 2;
        return {grid.border(from) - half, grid.border(std::min(from + count, grid.columns)) + half, rMin, rMax};
    }

    void offer(int from, int count, const Metal& metal, SpacePoint away, Side side) {
        if (metal.none) return;
        if (side != Side::Below) offerRectangle(from, count, metal.inner, metal.outer, metal.alike, away, Side::Above);
        if (side != Side::Above) {
            offerRectangle(from, count, -metal.outer, -metal.inner, metal.alike, away, Side::Below);
        }
    }

    void offerRectangle(int from, int count, double rMin, double rMax, bool isMetal, SpacePoint away, Side side) {
        const Rectangle r = rectangle(from, count, rMin, rMax);
        const double least = leastGap(outline_.box(), r);
        if (least >= best_) {
            passOver(least);
            return;
        }
        if (isMetal) {
            measure(r, away);
            return;
        }
        // Slabs are only looked at roughly: their chunks are near at hand.
        double bound = least;
        if (count < kSlabColumns) {
            const Separation s = separation(outline_, r, start(r, away), {best_, 1e-3, kCoverShare});
            bound = std::max(least, s.lower - kRoundingMm);
            away = s.away;
        }
        if (bound >= best_) {
            passOver(bound);
            return;
        }
        heap_.push_back({bound, from, count, side, away});
        std::push_heap(heap_.begin(), heap_.end());
    }

    SpacePoint start(const Rectangle& r, SpacePoint away) const {
        return away == SpacePoint{} ? outline_.middle() - r.middle() : away;
    }

    void measure(const Rectangle& r, SpacePoint away) {
        const Separation s = separation(outline_, r, start(r, away), {best_, kNearnessMm / 2, 1});
        const double gap = std::max(0.0, s.lower - kRoundingMm);
        if (gap >= best_) {
            passOver(gap);
            return;
        }
        best_ = gap;
        found_ = true;
        nearest_ = {gap, s.onFirst, s.onSecond};
    }

    void split(const Item& item) {
        if (item.count == kSlabColumns) {
            const int first = item.from / kChunkColumns;
            const int end = std::min(first + kSlabChunks, billet_.grid().chunks());
            for (int c = first; c < end; ++c) {
                offer(c * kChunkColumns, kChunkColumns, ofChunk(c), item.away, item.side);
            }
        } else if (item.count > 1) {
            const int half = item.count / 2;
            for (int from : {item.from, item.from + half}) {
                offer(from, half, ofColumns(from, half), item.away, item.side);
            }
        } else {
            billet_.intervals(item.from, solids_);
            for (const Interval& solid : solids_) {
                offer(item.from, 1, {solid.inner, solid.outer, false, true}, item.away, item.side);
            }
        }
    }

    Metal ofChunk(int index) const {
        const ChunkBounds& b = billet_.bounds(index);
        const bool whole = (index + 1) * kChunkColumns <= billet_.grid().columns;
        const bool alike = whole && !b.hasGaps && b.minOuter > b.maxInner && b.maxOuter - b.minOuter <= kAlikeMm &&
                           b.maxInner - b.minInner <= kAlikeMm;
        return {b.minInner, b.maxOuter, b.maxOuter <= 0, alike};
    }

    Metal ofColumns(int from, int count) const {
        const Chunk& chunk = billet_.chunk(from / kChunkColumns);
        Metal metal{kFar, 0, true, true};
        double mostInner = 0, leastOuter = kFar;
        const int first = from % kChunkColumns, end = std::min(first + count, first + billet_.grid().columns - from);
        for (int k = first; k < end; ++k) {
            const double outer = chunk.outer.r[static_cast<std::size_t>(k)];
            const double inner = chunk.inner->r[static_cast<std::size_t>(k)];
            if (outer <= inner) {
                metal.alike = false;
                continue;
            }
            metal.none = false;
            metal.inner = std::min(metal.inner, inner);
            metal.outer = std::max(metal.outer, outer);
            mostInner = std::max(mostInner, inner);
            leastOuter = std::min(leastOuter, outer);
        }
        const auto gap = std::lower_bound(chunk.gaps.begin(), chunk.gaps.end(), first,
                                          [](const Gap& g, int column) { return static_cast<int>(g.column) < column; });
        const bool hasGaps = gap != chunk.gaps.end() && static_cast<int>(gap->column) < end;
        metal.alike = metal.alike && !hasGaps && end - first == count && metal.outer - leastOuter <= kAlikeMm &&
                      mostInner - metal.inner <= kAlikeMm;
        return metal;
    }

    const Billet& billet_;
    SweptOutline outline_;
    double best_;
    double passedOver_ = kFar;
    Nearness nearest_;
    bool found_ = false;
    std::vector<Item> heap_;
    std::vector<Interval> solids_;
};

}  // namespace

Nearness nearnessInPlane(const Billet& billet, const Outline& outline, const Placing& at, double beyond) {
    if (outline.empty()) return {};
    return PlaneSearch(billet, outline, at, beyond).run();
}

}  // namespace firstoff
