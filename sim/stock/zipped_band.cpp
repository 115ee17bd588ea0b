// Zip. Two neighbouring lines a and b run the same way along z. From the pair of points (a[i], b[k]) the next triangle
// goes on to a[i + 1] or to b[k + 1], whichever cross line is the shorter, until both are at their ends. On a thread
// the shortest cross lines follow the helix from corner to corner.
#include "sim/stock/zipped_band.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "sim/stock/side_tracer.h"

namespace firstoff {

namespace {

// One side of the metal along one meridian, from left to right.
struct Line {
    std::vector<std::uint32_t> at;
    std::vector<CutId> cuts;  // of the edge behind each point but the last
};

class BandZipper {
public:
    BandZipper(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const std::uint16_t> toolOfCut,
               std::span<const int> sectors, MeshStrips& strips, MeshBorder& left, MeshBorder& right)
        : billet_(billet),
          band_(band),
          sectionMm_(sectionMm),
          toolOfCut_(toolOfCut),
          sectors_(sectors),
          strips_(strips),
          left_(left),
          right_(right),
          leftGiven_(!left.sides.empty()),
          rightGiven_(!right.sides.empty()) {}

    void zip() {
        std::vector<Interval> solids;
        billet_.intervals(band_.firstChunk * kChunkColumns, solids, sectors_[0]);
        for (std::size_t k = 0; k < solids.size(); ++k) {
            const bool axis = k == 0 && solids[0].inner < kMeshPlaceMm;
            if (axis) {
                giveAxis(left_, leftGiven_, true);
                giveAxis(right_, rightGiven_, false);
            } else {
                zipSide(2 * k, Side::Inner);
            }
            zipSide(2 * k + 1, Side::Outer);
        }
    }

private:
    // The metal reaches the axis all along the band. A border that a neighbour drew may still end just beside it.
    void giveAxis(MeshBorder& border, bool given, bool atLeft) {
        const MeshRing pole = strips_.ring({border.z, 0});
        if (!given) {
            border.sides.push_back({std::vector<double>(sectors_.size(), 0.0), pole, kUncut});
            return;
        }
        const MeshBorderSide& side = border.sides.front();
        if (side.ring.pole) return;
        if (atLeft) {
            strips_.sweep(side.ring, pole, side.cut);
        } else {
            strips_.sweep(pole, side.ring, side.cut);
        }
    }

    void zipSide(std::size_t index, Side side) {
        std::vector<Line> lines;
        MeshBorderSide startSide, endSide;
        for (std::size_t j = 0; j < sectors_.size(); ++j) {
            const SideTracer traced = trace(index, side, sectors_[j]);
            lines.push_back(line(traced, index, static_cast<int>(j)));
            keepEnd(startSide, traced.points().front().r, lines.back().at.front(), traced.cuts().front());
            keepEnd(endSide, traced.points().back().r, lines.back().at.back(), traced.cuts().back());
        }
        for (std::size_t j = 0; j < lines.size(); ++j) {
            zipLines(lines[j], lines[(j + 1) % lines.size()], side == Side::Outer);
        }
        if (!leftGiven_) left_.sides.push_back(std::move(startSide));
        if (!rightGiven_) right_.sides.push_back(std::move(endSide));
    }

    static void keepEnd(MeshBorderSide& side, double r, std::uint32_t at, CutId cut) {
        side.r.push_back(r);
        side.ring.at.push_back(at);
        side.cut = cut;
    }

    SideTracer trace(std::size_t index, Side side, int sector) {
        SideTracer tracer(side, sectionMm_, billet_.grid().pitch, toolOfCut_);
        for (int c = band_.firstChunk; c < band_.endChunk; ++c) {
            const Chunk& chunk = billet_.chunk(c, sector);
            if (chunk.gaps.empty()) {
                addPlain(tracer, side == Side::Inner ? *chunk.inner : chunk.outer, c);
            } else {
                addFromGaps(tracer, index, c, sector);
            }
        }
        tracer.finish();
        return tracer;
    }

    int endOf(int chunk) const { return std::min((chunk + 1) * kChunkColumns, billet_.grid().columns); }

    void addPlain(SideTracer& tracer, const Surface& surface, int chunk) const {
        const int base = chunk * kChunkColumns;
        for (int column = base; column < endOf(chunk); ++column) {
            const auto k = static_cast<std::size_t>(column - base);
            tracer.add(billet_.grid().z(column), surface.r[k], surface.cut[k]);
        }
    }
    void addFromGaps(SideTracer& tracer, std::size_t index, int chunk, int sector) {
        for (int column = chunk * kChunkColumns; column < endOf(chunk); ++column) {
            billet_.intervals(column, solids_, sector);
            const Interval& solid = solids_[index / 2];
            const double z = billet_.grid().z(column);
            if (index % 2 == 0) {
                tracer.add(z, solid.inner, solid.innerCut);
            } else {
                tracer.add(z, solid.outer, solid.outerCut);
            }
        }
    }

    // The line with its ends on the borders. Where a border stands already and the line meets it elsewhere, an upright
    // edge leads from one to the other.
    Line line(const SideTracer& traced, std::size_t index, int meridian) {
        const std::vector<Point>& points = traced.points();
        const auto j = static_cast<std::size_t>(meridian);
        Line result;
        Point last{};
        const auto add = [&](Point p, std::uint32_t at, CutId cutBefore) {
            if (!result.at.empty()) result.cuts.push_back(cutBefore);
            result.at.push_back(at);
            last = p;
        };
        const auto draw = [&](Point p, CutId cutBefore) {
            if (result.at.empty() || distance(last, p) >= kMeshPlaceMm) {
                add(p, strips_.point(p, meridian), cutBefore);
            }
        };
        if (leftGiven_) add({left_.z, left_.sides[index].r[j]}, left_.sides[index].ring.at[j], kUncut);
        const CutId first = traced.cuts().front();
        for (std::size_t i = 0; i < points.size(); ++i) draw(points[i], i == 0 ? first : traced.cuts()[i - 1]);
        if (!rightGiven_) return result;
        const Point end{right_.z, right_.sides[index].r[j]};
        const bool takesItsPlace = result.at.size() > 1 && distance(last, end) < kMeshPlaceMm;
        if (takesItsPlace) {
            result.at.back() = right_.sides[index].ring.at[j];
        } else {
            add(end, right_.sides[index].ring.at[j], traced.cuts().back());
        }
        return result;
    }

    void zipLines(const Line& a, const Line& b, bool outer) {
        std::size_t i = 0;
        std::size_t k = 0;
        while (i + 1 < a.at.size() || k + 1 < b.at.size()) {
            const bool aEnds = i + 1 == a.at.size();
            const bool bEnds = k + 1 == b.at.size();
            const bool alongA = bEnds || (!aEnds && strips_.squareBetween(a.at[i + 1], b.at[k]) <=
                                                        strips_.squareBetween(a.at[i], b.at[k + 1]));
            const std::uint32_t next = alongA ? a.at[i + 1] : b.at[k + 1];
            const CutId cut = alongA ? a.cuts[i] : b.cuts[k];
            if (outer) {
                strips_.triangle(a.at[i], next, b.at[k], cut);
            } else {
                strips_.triangle(a.at[i], b.at[k], next, cut);
            }
            alongA ? ++i : ++k;
        }
    }

    const Billet& billet_;
    const MeshBand& band_;
    double sectionMm_;
    std::span<const std::uint16_t> toolOfCut_;
    std::span<const int> sectors_;
    MeshStrips& strips_;
    MeshBorder& left_;
    MeshBorder& right_;
    bool leftGiven_, rightGiven_;
    std::vector<Interval> solids_;
};

}  // namespace

void zipBand(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const std::uint16_t> toolOfCut,
             std::span<const int> sectors, MeshStrips& strips, MeshBorder& left, MeshBorder& right) {
    BandZipper(billet, band, sectionMm, toolOfCut, sectors, strips, left, right).zip();
}

}  // namespace firstoff
