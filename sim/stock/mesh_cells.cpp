#include "sim/stock/mesh_cells.h"

#include <algorithm>
#include <cstddef>
#include <limits>

namespace firstoff {

namespace {

bool overlap(const MeshNode& a, std::size_t i, const MeshNode& b, std::size_t k) {
    return joined({a[2 * i].r, a[2 * i + 1].r}, {b[2 * k].r, b[2 * k + 1].r});
}

class WallMaker {
public:
    WallMaker(const MeshNode& first, const MeshNode& second, MeshTies& ties)
        : first_(first), second_(second), ties_(ties) {
        wall_.fromFirst.resize(first.size());
        wall_.fromSecond.resize(second.size());
    }

    MeshWall through() {
        for (std::size_t i = 0; i < first_.size(); ++i) cross(i, i);
        return wall_;
    }

    // Groups of stretches that hang together by overlaps: the lowest and the highest side run over, gaps in between are
    // closed. What overlaps nothing ends.
    MeshWall byOverlap() {
        const std::size_t n = first_.size() / 2;
        const std::size_t m = second_.size() / 2;
        std::size_t a = 0;
        std::size_t b = 0;
        while (a < n || b < m) {
            if (a < n && b < m && overlap(first_, a, second_, b)) {
                addGroup(a, b);
            } else if (b == m || (a < n && first_[2 * a + 1].r <= second_[2 * b + 1].r)) {
                tieFirst(2 * a);
                ++a;
            } else {
                tieSecond(2 * b);
                ++b;
            }
        }
        return wall_;
    }

private:
    void addGroup(std::size_t& a, std::size_t& b) {
        std::size_t aEnd = a + 1;
        std::size_t bEnd = b + 1;
        for (;;) {
            if (2 * aEnd < first_.size() && overlap(first_, aEnd, second_, bEnd - 1)) {
                ++aEnd;
            } else if (2 * bEnd < second_.size() && overlap(first_, aEnd - 1, second_, bEnd)) {
                ++bEnd;
            } else {
                break;
            }
        }
        cross(2 * a, 2 * b);
        cross(2 * aEnd - 1, 2 * bEnd - 1);
        for (std::size_t i = a; i + 1 < aEnd; ++i) tieFirst(2 * i + 1);
        for (std::size_t i = b; i + 1 < bEnd; ++i) tieSecond(2 * i + 1);
        a = aEnd;
        b = bEnd;
    }

    void cross(std::size_t i, std::size_t k) {
        wall_.fromFirst[i] = {true, static_cast<std::uint32_t>(k), {kNoTie, kNoTie}};
        wall_.fromSecond[k] = {true, static_cast<std::uint32_t>(i), {kNoTie, kNoTie}};
    }
    // A port and the next one outwards.
    void tieFirst(std::size_t i) {
        tie(wall_.fromFirst, i, ties_.first(first_[i]), ties_.first(first_[i + 1]));
    }
    void tieSecond(std::size_t i) {
        tie(wall_.fromSecond, i, ties_.second(second_[i]), ties_.second(second_[i + 1]));
    }
    static void tie(std::vector<MeshWay>& ways, std::size_t i, std::uint32_t low, std::uint32_t high) {
        ways[i] = {false, static_cast<std::uint32_t>(i + 1), {low, high}};
        ways[i + 1] = {false, static_cast<std::uint32_t>(i), {high, low}};
    }

    const MeshNode& first_;
    const MeshNode& second_;
    MeshTies& ties_;
    MeshWall wall_;
};

enum Walls : unsigned { kAB = 1, kBC = 2, kDC = 4, kAD = 8 };

struct Corner {
    std::uint32_t at = 0;
    unsigned walls = 0;  // that it stands in
};

class CellFiller {
public:
    CellFiller(const MeshCell& cell, MeshStrips& strips) : strips_(strips) {
        // By node: leaving along the metal to its left, the wall for inner sides and the one for outer sides.
        places_[0] = {cell.a, {cell.ab, kAB, true, 1}, {cell.ad, kAD, true, 3}};
        places_[1] = {cell.b, {cell.bc, kBC, true, 2}, {cell.ab, kAB, false, 0}};
        places_[2] = {cell.c, {cell.dc, kDC, false, 3}, {cell.bc, kBC, false, 1}};
        places_[3] = {cell.d, {cell.ad, kAD, false, 0}, {cell.dc, kDC, true, 2}};
        for (std::size_t p = 0; p < 4; ++p) done_[p].assign(places_[p].node->size(), false);
    }

    void fill() {
        for (std::size_t p = 0; p < 4; ++p) {
            for (std::size_t port = 0; port < done_[p].size(); ++port) {
                if (!done_[p][port]) fillLoop(p, port);
            }
        }
    }

private:
    struct Exit {
        const MeshWall* wall = nullptr;
        unsigned mark = 0;
        bool isFirst = false;   // the node is the first of the wall
        std::size_t other = 0;  // node at the other end
    };
    struct Place {
        const MeshNode* node = nullptr;
        Exit inner, outer;
    };

    void fillLoop(std::size_t place, std::size_t port) {
        loop_.clear();
        const CutId cut = (*places_[place].node)[port].cut;
        while (!done_[place][port]) {
            done_[place][port] = true;
            const Place& here = places_[place];
            loop_.push_back({(*here.node)[port].at, here.inner.mark | here.outer.mark});
            const Exit& exit = port % 2 == 0 ? here.inner : here.outer;
            const MeshWay& way = (exit.isFirst ? exit.wall->fromFirst : exit.wall->fromSecond)[port];
            for (std::uint32_t tie : way.ties) {
                if (tie != kNoTie) loop_.push_back({tie, exit.mark});
            }
            port = way.port;
            if (way.across) place = exit.other;
        }
        tidy();
        if (loop_.size() < 3) return;
        if (!triangulate(cut)) fan(cut);
    }

    // Corners that follow each other in one place, and ways forth and back along the axis, go.
    void tidy() {
        for (bool changed = true; changed && loop_.size() > 1;) {
            changed = false;
            for (std::size_t i = 0; i < loop_.size() && loop_.size() > 1; ++i) {
                const std::size_t next = (i + 1) % loop_.size();
                const std::size_t afterNext = (i + 2) % loop_.size();
                if (loop_[i].at == loop_[next].at) {
                    merge(i, next);
                    changed = true;
                } else if (loop_.size() > 2 && loop_[i].at == loop_[afterNext].at) {
                    loop_[i].walls |= loop_[next].walls;
                    loop_.erase(loop_.begin() + static_cast<std::ptrdiff_t>(next));
                    changed = true;
                }
                if (changed) break;
            }
        }
    }
    void merge(std::size_t keep, std::size_t drop) {
        loop_[keep].walls |= loop_[drop].walls;
        loop_.erase(loop_.begin() + static_cast<std::ptrdiff_t>(drop));
    }

    // The triangles with the least sum of areas, by the widths of parts of the loop (G. T. Klincsek, "Minimal
    // triangulations of polygonal domains", 1980). False if there is none without a forbidden edge.
    bool triangulate(CutId cut) {
        const std::size_t n = loop_.size();
        constexpr double kNone = std::numeric_limits<double>::infinity();
        least_.assign(n * n, 0);
        apex_.assign(n * n, 0);
        for (std::size_t width = 2; width < n; ++width) {
            for (std::size_t i = 0; i + width < n; ++i) {
                const std::size_t k = i + width;
                double best = kNone;
                const bool whole = width + 1 == n;  // that edge is the loop's own
                if (whole || mayJoin(i, k)) {
                    for (std::size_t m = i + 1; m < k; ++m) {
                        const double area = least_[i * n + m] + least_[m * n + k] +
                                            strips_.squareOfArea(loop_[i].at, loop_[m].at, loop_[k].at);
                        if (area < best) {
                            best = area;
                            apex_[i * n + k] = m;
                        }
                    }
                }
                least_[i * n + k] = best;
            }
        }
        if (least_[n - 1] == kNone) return false;
        put(0, n - 1, cut);
        return true;
    }
    bool mayJoin(std::size_t i, std::size_t k) const {
        return (loop_[i].walls & loop_[k].walls) == 0 && loop_[i].at != loop_[k].at;
    }
    void put(std::size_t i, std::size_t k, CutId cut) {
        if (k - i < 2) return;
        const std::size_t m = apex_[i * loop_.size() + k];
        put(i, m, cut);
        put(m, k, cut);
        strips_.triangle(loop_[i].at, loop_[m].at, loop_[k].at, cut);
    }

    void fan(CutId cut) {
        std::vector<std::uint32_t> points;
        for (const Corner& corner : loop_) points.push_back(corner.at);
        const std::uint32_t hub = strips_.middle(points);
        for (std::size_t i = 0; i < points.size(); ++i) {
            strips_.triangle(points[i], points[(i + 1) % points.size()], hub, cut);
        }
    }

    MeshStrips& strips_;
    std::array<Place, 4> places_;
    std::array<std::vector<bool>, 4> done_;
    std::vector<Corner> loop_;
    std::vector<double> least_;
    std::vector<std::size_t> apex_;
};

}  // namespace

MeshWall meshWall(const MeshNode& first, const MeshNode& second, bool through, MeshTies& ties) {
    WallMaker maker(first, second, ties);
    return through ? maker.through() : maker.byOverlap();
}

void fillCell(const MeshCell& cell, MeshStrips& strips) {
    CellFiller(cell, strips).fill();
}

}  // namespace firstoff
