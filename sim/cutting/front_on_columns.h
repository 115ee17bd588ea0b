// A stretch of a tool's front against the columns of a billet: which of it lies in metal. Inside sim/cutting only.
//
//        r ^      .-- column i: metal in [inner, outer]
//          |   |  |  |  |            Column i stands for all z from border(i) to border(i + 1). The piece runs one way
//          in |   |  |  |/´|            z and in r, so within a column it runs through one stretch of r, and what lies
//          in |   | .´´´|  |            metal of it are the pieces between the radii of the intervals.
//          +--------------> z
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/cutting/engaged_front.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

// Points of a piece, in its own frame.
inline Point atZ(const FrontPiece& piece, double z) {
    if (piece.radius == 0) {
        const double span = piece.to.z - piece.from.z;
        if (span <= 0) return piece.from;
        return {z, piece.from.r + (z - piece.from.z) / span * (piece.to.r - piece.from.r)};
    }
    const double dz = z - piece.centre.z;
    const double dr = std::sqrt(std::max(0.0, piece.radius * piece.radius - dz * dz));
    return {z, piece.upper ? piece.centre.r + dr : piece.centre.r - dr};
}
inline Point atR(const FrontPiece& piece, double r) {
    if (piece.radius == 0) {
        const double span = piece.to.r - piece.from.r;
        if (span == 0) return piece.from;
        return {piece.from.z + (r - piece.from.r) / span * (piece.to.z - piece.from.z), r};
    }
    const double dr = r - piece.centre.r;
    const double dz = std::sqrt(std::max(0.0, piece.radius * piece.radius - dr * dr));
    const bool right = piece.from.z + piece.to.z > 2 * piece.centre.z;
    return {right ? piece.centre.z + dz : piece.centre.z - dz, r};
}

class FrontOnColumns {
public:
    // Of what is asked: the metal as it is, every sector by its share of the turn; or what the bar reaches at most,
    // round the axis.
    enum class Of { Metal, Envelope };

    // `centreHeight`: of the edge over the axis. Radii seen by the turning bar are those of the edge's plane then, by
    // Pythagoras.
    FrontOnColumns(const Billet& billet, double centreHeight) : billet_(billet), height_(std::abs(centreHeight)) {}

    // Calls take(a, b, weight) for every stretch of `piece` (lathe frame) in metal. Neighbouring stretches come as one.
    // False if the billet is not round everywhere there.
    template <typename Take>
    bool meet(const FrontPiece& piece, Of of, Take take) const;

private:
    // A stretch that may still grow.
    struct Open {
        Point a, b;
        bool any = false;
    };
    template <typename Take>
    static void grow(Open& open, Point a, Point b, double weight, Take& take) {
        constexpr double kTogetherMm = 1e-12;
        if (open.any && std::abs(a.z - open.b.z) <= kTogetherMm && std::abs(a.r - open.b.r) <= kTogetherMm) {
            open.b = b;
            return;
        }
        close(open, weight, take);
        open = {a, b, true};
    }
    template <typename Take>
    static void close(Open& open, double weight, Take& take) {
        if (open.any) take(open.a, open.b, weight);
        open.any = false;
    }
    template <typename Take>
    void meetChunk(const FrontPiece& piece, const Chunk& chunk, const ChunkBounds& bounds, int index, double weight,
                   Open& open, Take& take) const;

    template <typename Take>
    static void overlap(const FrontPiece& piece, Point left, Point right, bool rising, double inner, double outer,
                        double weight, Open& open, Take& take);

    // Radius of the bar as a distance across in the plane of the edge.
    double plane(double r) const {
        if (height_ == 0) return r;
        return r > height_ ? std::sqrt(r * r - height_ * height_) : 0.0;
    }

    const Billet& billet_;
    double height_;
};

template <typename Take>
bool FrontOnColumns::meet(const FrontPiece& piece, Of of, Take take) const {
    const Grid& grid = billet_.grid();
    if (piece.to.z < grid.border(0) || piece.from.z > grid.border(grid.columns)) return true;
    const int first = std::clamp(grid.columnNear(piece.from.z), 0, grid.columns - 1);
    const int last = std::clamp(grid.columnNear(piece.to.z), first, grid.columns - 1);
    bool round = true;
    Open open;
    const double lowest = std::min(piece.from.r, piece.to.r), highest = std::max(piece.from.r, piece.to.r);
    for (int index = first / kChunkColumns; index <= last / kChunkColumns; ++index) {
        const int slab = index / kSlabChunks;
        if (lowest >= plane(billet_.slabMaxOuter(slab)) || highest <= plane(billet_.slabMinInner(slab))) {
            index = (slab + 1) * kSlabChunks - 1;
            continue;
        }
        if (billet_.isRound(index) || of == Of::Envelope) {
            round = round && billet_.isRound(index);
            meetChunk(piece, billet_.chunk(index), billet_.bounds(index), index, 1, open, take);
            continue;
        }
        round = false;
        close(open, 1, take);
        const Sectors& sectors = *billet_.sectorsRef(index);
        for (std::size_t kind = 0; kind < sectors.kinds.size(); ++kind) {
            if (sectors.users[kind] == 0) continue;
            const double weight = static_cast<double>(sectors.users[kind]) / billet_.sectors();
            meetChunk(piece, *sectors.kinds[kind], sectors.bounds[kind], index, weight, open, take);
            close(open, weight, take);
        }
    }
    close(open, 1, take);
    return round;
}

template <typename Take>
void FrontOnColumns::meetChunk(const FrontPiece& piece, const Chunk& chunk, const ChunkBounds& bounds, int index,
                               double weight, Open& open, Take& take) const {
    const Grid& grid = billet_.grid();
    const int base = index * kChunkColumns;
    if (bounds.maxOuter <= 0) return;
    const double zFrom = std::max(piece.from.z, grid.border(base));
    const double zTo = std::min(piece.to.z, grid.border(std::min(base + kChunkColumns, grid.columns)));
    if (zTo < zFrom) return;
    const bool upright = piece.to.z == piece.from.z;
    const Point a = upright ? piece.from : atZ(piece, zFrom), b = upright ? piece.to : atZ(piece, zTo);
    const double low = std::min(a.r, b.r), high = std::max(a.r, b.r);
    if (low >= plane(bounds.maxOuter) || high <= plane(bounds.minInner)) return;
    const bool whole = bounds.minOuter > 0 && !bounds.hasGaps && low >= 0;
    if (whole && low >= plane(bounds.maxInner) && high <= plane(bounds.minOuter)) return grow(open, a, b, weight, take);

    const int first = std::clamp(grid.columnNear(zFrom), base, base + kChunkColumns - 1);
    const int last = std::clamp(grid.columnNear(zTo), first, std::min(base + kChunkColumns, grid.columns) - 1);
    // What can be seen without working out where the piece crosses a surface is done here, most columns are such.
    thread_local std::vector<Interval> solids;
    const bool rising = b.r > a.r || (b.r == a.r && piece.to.r >= piece.from.r);
    const double slope = upright ? 0 : (piece.to.r - piece.from.r) / (piece.to.z - piece.from.z);
    Point left = a;
    for (int column = first; column <= last; ++column) {
        Point right = b;
        if (column != last) {
            right.z = grid.border(column + 1);
            right.r = piece.radius == 0 ? piece.from.r + slope * (right.z - piece.from.z) : atZ(piece, right.z).r;
        }
        const auto i = static_cast<std::size_t>(column - base);
        const double outer = plane(chunk.outer.r[i]);
        const double from = rising ? left.r : right.r, to = rising ? right.r : left.r;
        if (from < outer && !bounds.hasGaps) {
            const double inner = chunk.inner ? plane(chunk.inner->r[i]) : 0;
            if (from >= inner && to <= outer) {
                grow(open, left, right, weight, take);
            } else if (to >= inner) {
                overlap(piece, left, right, rising, inner, outer, weight, open, take);
            }
        } else if (from < outer) {
            readColumn(chunk, i, solids);
            if (!rising) std::reverse(solids.begin(), solids.end());
            for (const Interval& solid : solids) {
                overlap(piece, left, right, rising, plane(solid.inner), plane(solid.outer), weight, open, take);
            }
        }
        left = right;
    }
}

// The stretch from `left` to `right`, within one column, between two radii.
template <typename Take>
void FrontOnColumns::overlap(const FrontPiece& piece, Point left, Point right, bool rising, double inner, double outer,
                             double weight, Open& open, Take& take) {
    const Point down = rising ? left : right, up = rising ? right : left;
    const double lowest = std::max(down.r, inner), highest = std::min(up.r, outer);
    if (highest < lowest || (highest == lowest && up.r > down.r)) return;
    const Point low = lowest == down.r ? down : atR(piece, lowest);
    const Point high = highest == up.r ? up : atR(piece, highest);
    grow(open, rising ? low : high, rising ? high : low, weight, take);
}

}  // namespace firstoff
