// The loops of the band alone close along its borders, where the metal really goes on. Those edges are left out; what
// is left of a loop are paths from border to border, whose ends are the sides of the border.
#include "sim/stock/swept_band.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "sim/stock/section.h"

namespace firstoff {

namespace {

// A hole that closes to nothing and opens again at one point of the axis would leave two surfaces that touch there;
// this keeps them apart.
constexpr double kPinholeMm = 1e-6;

struct Path {
    std::vector<Point> points;
    std::vector<CutId> cuts;  // of the edge behind each point; the last one's only where it closes
    bool closes = false;
};

Billet alone(const Billet& billet, const MeshBand& band) {
    Billet part = Billet::emptyLike(billet);
    for (int c = band.firstChunk; c < band.endChunk; ++c) {
        part.chunkRef(c) = billet.chunkRef(c);
        part.setBounds(c, billet.bounds(c));
    }
    return part;
}

Point toAxis(Point p) {
    return p.r < kMeshPlaceMm ? Point{p.z, 0} : p;
}

// Points that fall together made one. The ends of an open path stay.
Path tidied(const Path& path) {
    Path result;
    result.closes = path.closes;
    const std::size_t n = path.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        const Point p = toAxis(path.points[i]);
        const bool end = !path.closes && i + 1 == n;
        if (!result.points.empty() && distance(result.points.back(), p) < kMeshPlaceMm) {
            const bool afterStart = !path.closes && result.points.size() == 1;
            if (end && afterStart) {  // two ends of a border, nearly in one place
                result.points.push_back(p);
                result.cuts.push_back(path.cuts[i]);
            } else {
                // The edge between the two goes; what is behind the second goes on from the first.
                result.cuts.back() = path.cuts[i];
                if (p.r == 0 || end) result.points.back() = p;
            }
            continue;
        }
        result.points.push_back(p);
        result.cuts.push_back(path.cuts[i]);
    }
    while (path.closes && result.points.size() > 1 &&
           distance(result.points.back(), result.points.front()) < kMeshPlaceMm) {
        if (result.points.back().r == 0) result.points.front() = result.points.back();
        result.points.pop_back();
        result.cuts.pop_back();
    }
    return result;
}

void openPinholes(Path& path) {
    const std::size_t n = path.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        if (!path.closes && (i == 0 || i + 1 == n)) continue;
        const bool alone = path.points[(i + n - 1) % n].r > 0 && path.points[(i + 1) % n].r > 0;
        if (path.points[i].r == 0 && alone) path.points[i].r = kPinholeMm;
    }
}

class BandSweeper {
public:
    BandSweeper(MeshStrips& strips, MeshBorder* left, MeshBorder* right)
        : strips_(strips), left_(left), right_(right) {}

    void add(const Loop& loop) {
        for (const Path& path : paths(loop)) addPath(path);
    }

private:
    static constexpr double kOnBorderMm = 1e-9;  // columns and borders are reckoned in different ways

    MeshBorder* borderAt(Point p) const {
        for (MeshBorder* border : {left_, right_}) {
            if (border != nullptr && std::abs(p.z - border->z) < kOnBorderMm) return border;
        }
        return nullptr;
    }
    bool alongBorder(Point a, Point b) const { return borderAt(a) != nullptr && borderAt(a) == borderAt(b); }

    std::vector<Path> paths(const Loop& loop) const {
        const std::size_t n = loop.points.size();
        const auto edgeGoes = [&](std::size_t i) { return alongBorder(loop.points[i % n], loop.points[(i + 1) % n]); };
        std::size_t start = 0;
        while (start < n && !edgeGoes(start)) ++start;
        if (start == n) return {Path{loop.points, loop.cuts, true}};
        std::vector<Path> result;
        Path path;
        for (std::size_t i = start + 1; i <= start + n; ++i) {
            path.points.push_back(loop.points[i % n]);
            path.cuts.push_back(loop.cuts[i % n]);
            if (!edgeGoes(i)) continue;
            if (path.points.size() > 1) result.push_back(std::move(path));
            path = {};
        }
        return result;
    }

    void addPath(const Path& drawn) {
        Path path = tidied(drawn);
        const std::size_t n = path.points.size();
        if (n < (path.closes ? 3U : 2U)) return;
        openPinholes(path);
        const MeshRing first = strips_.ring(path.points[0]);
        if (!path.closes) addSide(path.points[0], first, path.cuts[0]);
        MeshRing from = first;
        for (std::size_t i = 0; i + 1 < n; ++i) {
            MeshRing to = strips_.ring(path.points[i + 1]);
            strips_.sweep(from, to, path.cuts[i]);
            from = std::move(to);
        }
        if (path.closes) {
            strips_.sweep(from, first, path.cuts[n - 1]);
        } else {
            addSide(path.points[n - 1], from, path.cuts[n - 2]);
        }
    }

    void addSide(Point place, const MeshRing& ring, CutId cut) {
        const auto count = static_cast<std::size_t>(strips_.meridians());
        borderAt(place)->sides.push_back({std::vector<double>(count, place.r), ring, cut});
    }

    MeshStrips& strips_;
    MeshBorder* left_;
    MeshBorder* right_;
};

void sortSides(MeshBorder& border) {
    std::sort(border.sides.begin(), border.sides.end(),
              [](const MeshBorderSide& a, const MeshBorderSide& b) { return a.r.front() < b.r.front(); });
}

}  // namespace

void sweepBand(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const std::uint16_t> toolOfCut,
               MeshStrips& strips, MeshBorder& left, MeshBorder& right) {
    const bool first = band.firstChunk == 0;
    const bool last = band.endChunk == billet.grid().chunks();
    BandSweeper sweeper(strips, first ? nullptr : &left, last ? nullptr : &right);
    const std::vector<Loop> loops = first && last ? sectionLoops(billet, sectionMm, 0, toolOfCut)
                                                  : sectionLoops(alone(billet, band), sectionMm, 0, toolOfCut);
    for (const Loop& loop : loops) sweeper.add(loop);
    sortSides(left);
    sortSides(right);
}

}  // namespace firstoff
