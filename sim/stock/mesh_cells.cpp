#include "sim/stock/mesh_cells.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace firstoff {

namespace {

bool overlap(const MeshNode& a, std::size_t i, const MeshNode& b, std::size_t k) {
    return joined({a[2 * i].r, a[2 * i + 1].r}, {b[2 * k].r, b[2 * k + 1].r});
}

class WallMaker {
public:
    WallMaker(const MeshNode& first, const MeshNode& second, const MeshTies& ties)
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
    void tieFirst(std::size_t i) { tie(wall_.fromFirst, i, ties_.first(i)); }
    void tieSecond(std::size_t i) { tie(wall_.fromSecond, i, ties_.second(i)); }
    static void tie(std::vector<MeshWay>& ways, std::size_t i, const MeshTie& at) {
        ways[i] = {false, static_cast<std::uint32_t>(i + 1), at};
        ways[i + 1] = {false, static_cast<std::uint32_t>(i), {at[1], at[0]}};
    }

    const MeshNode& first_;
    const MeshNode& second_;
    const MeshTies& ties_;
    MeshWall wall_;
};

enum Walls : unsigned { kAB = 1, kBC = 2, kDC = 4, kAD = 8 };

struct Corner {
    std::uint32_t at = 0;
    unsigned walls = 0;  // that it stands in
    bool tie = false;
};

using Loop3 = std::vector<Corner>;
using Corners = std::array<std::uint32_t, 3>;

// The closed ways along the walls of a cell.
class CellLoops {
public:
    explicit CellLoops(const MeshCell& cell) {
        // By node: leaving along the metal to its left, the wall for inner sides and the one for outer sides.
        places_[0] = {cell.a, {cell.ab, kAB, true, 1}, {cell.ad, kAD, true, 3}};
        places_[1] = {cell.b, {cell.bc, kBC, true, 2}, {cell.ab, kAB, false, 0}};
        places_[2] = {cell.c, {cell.dc, kDC, false, 3}, {cell.bc, kBC, false, 1}};
        places_[3] = {cell.d, {cell.ad, kAD, false, 0}, {cell.dc, kDC, true, 2}};
        for (std::size_t p = 0; p < 4; ++p) done_[p].assign(places_[p].node->size(), false);
    }

    // The next loop and the cut of its first side; false if there is none left.
    bool next(Loop3& loop, CutId& cut) {
        for (std::size_t p = 0; p < 4; ++p) {
            for (std::size_t port = 0; port < done_[p].size(); ++port) {
                if (done_[p][port]) continue;
                cut = (*places_[p].node)[port].cut;
                follow(p, port, loop);
                tidy(loop);
                return true;
            }
        }
        return false;
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

    void follow(std::size_t place, std::size_t port, Loop3& loop) {
        loop.clear();
        while (!done_[place][port]) {
            done_[place][port] = true;
            const Place& here = places_[place];
            loop.push_back({(*here.node)[port].at, here.inner.mark | here.outer.mark, false});
            const Exit& exit = port % 2 == 0 ? here.inner : here.outer;
            const MeshWay& way = (exit.isFirst ? exit.wall->fromFirst : exit.wall->fromSecond)[port];
            for (std::uint32_t tie : way.ties) {
                if (tie != kNoTie) loop.push_back({tie, exit.mark, true});
            }
            port = way.port;
            if (way.across) place = exit.other;
        }
    }

    // Corners that follow each other in one place, and ways forth and back along the axis, go.
    static void tidy(Loop3& loop) {
        for (std::size_t i = 0; i < loop.size() && loop.size() > 1;) {
            const std::size_t next = (i + 1) % loop.size();
            const std::size_t afterNext = (i + 2) % loop.size();
            const bool together = loop[i].at == loop[next].at;
            const bool forthAndBack = loop.size() > 2 && loop[i].at == loop[afterNext].at;
            if (!together && !forthAndBack) {
                ++i;
                continue;
            }
            loop[i].walls |= loop[next].walls;
            loop.erase(loop.begin() + static_cast<std::ptrdiff_t>(next));
            i = 0;
        }
    }

    std::array<Place, 4> places_;
    std::array<std::vector<bool>, 4> done_;
};

// What is dear about the edges of triangles in a loop.
enum class Dear : std::uint8_t {
    Area,   // of the triangles only
    Mixed,  // above all, edges from a side that runs on to one that ends
    Length  // of edges
};

// The triangles of least cost, by the widths of parts of the loop (G. T. Klincsek, "Minimal triangulations of polygonal
// domains", 1980).
class LoopFiller {
public:
    explicit LoopFiller(MeshStrips& strips) : strips_(strips) {}

    // Appends the triangles. A loop that cannot be filled without a forbidden edge gets a hub in its middle.
    void fill(const Loop3& loop, Dear dear, std::vector<Corners>& triangles) {
        const std::size_t n = loop.size();
        loop_ = &loop;
        least_.assign(n * n, 0);
        apex_.assign(n * n, 0);
        for (std::size_t width = 2; width < n; ++width) {
            for (std::size_t i = 0; i + width < n; ++i) weigh(i, i + width, dear);
        }
        if (least_[n - 1] < kNone) {
            put(0, n - 1, triangles);
        } else {
            fan(triangles);
        }
    }

private:
    static constexpr double kNone = std::numeric_limits<double>::infinity();

    void weigh(std::size_t i, std::size_t k, Dear dear) {
        const std::size_t n = loop_->size();
        const Corner& a = (*loop_)[i];
        const Corner& b = (*loop_)[k];
        const bool whole = k - i + 1 == n;  // that edge is the loop's own
        double best = kNone;
        if (whole || ((a.walls & b.walls) == 0 && a.at != b.at)) {
            for (std::size_t m = i + 1; m < k; ++m) {
                const double cost = least_[i * n + m] + least_[m * n + k] +
                                    (dear == Dear::Length ? 0 : strips_.doubleArea(a.at, (*loop_)[m].at, b.at));
                if (cost < best) {
                    best = cost;
                    apex_[i * n + k] = m;
                }
            }
        }
        constexpr double kMixed = 1e6;  // mm², more than the area of any cell
        if (!whole && dear == Dear::Mixed && a.tie != b.tie) best += kMixed;
        if (!whole && dear == Dear::Length) best += std::sqrt(strips_.squareBetween(a.at, b.at));
        least_[i * n + k] = best;
    }
    void put(std::size_t i, std::size_t k, std::vector<Corners>& triangles) const {
        if (k - i < 2) return;
        const std::size_t m = apex_[i * loop_->size() + k];
        put(i, m, triangles);
        put(m, k, triangles);
        triangles.push_back({(*loop_)[i].at, (*loop_)[m].at, (*loop_)[k].at});
    }
    void fan(std::vector<Corners>& triangles) const {
        std::vector<std::uint32_t> points;
        for (const Corner& corner : *loop_) points.push_back(corner.at);
        const std::uint32_t hub = strips_.middle(points);
        for (std::size_t i = 0; i < points.size(); ++i) {
            triangles.push_back({points[i], points[(i + 1) % points.size()], hub});
        }
    }

    MeshStrips& strips_;
    const Loop3* loop_ = nullptr;
    std::vector<double> least_;
    std::vector<std::size_t> apex_;
};

class CellFiller {
public:
    explicit CellFiller(MeshStrips& strips) : strips_(strips), filler_(strips) {}

    void fill(const MeshCell& cell) {
        CellLoops ways(cell);
        loops_.clear();
        cuts_.clear();
        Loop3 loop;
        CutId cut = kUncut;
        while (ways.next(loop, cut)) {
            if (loop.size() < 3) continue;
            loops_.push_back(loop);
            cuts_.push_back(cut);
        }
        const bool plain = std::all_of(loops_.begin(), loops_.end(), [](const Loop3& l) { return l.size() == 4; });
        if (plain) {
            fillPlain();
        } else {
            fillBest();
        }
    }

private:
    // Every side runs through. All of them are folded along the same diagonal, so that none crosses another.
    void fillPlain() {
        double first = 0;
        double second = 0;
        for (const Loop3& l : loops_) {
            const std::size_t from = start(l);
            first += strips_.squareBetween(l[from].at, l[(from + 2) % 4].at);
            second += strips_.squareBetween(l[(from + 1) % 4].at, l[(from + 3) % 4].at);
        }
        for (std::size_t i = 0; i < loops_.size(); ++i) {
            const Loop3& l = loops_[i];
            const std::size_t k = start(l) + (first <= second ? 0 : 1);
            const auto at = [&](std::size_t n) { return l[(k + n) % 4].at; };
            strips_.triangle(at(0), at(1), at(2), cuts_[i]);
            strips_.triangle(at(0), at(2), at(3), cuts_[i]);
        }
    }
    // The corner at the node A.
    static std::size_t start(const Loop3& loop) {
        for (std::size_t i = 0; i < 4; ++i) {
            if (loop[i].walls == (kAB | kAD)) return i;
        }
        return 0;
    }

    // Cells do not reach into each other, so it is enough that no triangles of a cell cross.
    void fillBest() {
        std::vector<Corners> best;
        std::vector<CutId> bestCuts;
        int fewest = std::numeric_limits<int>::max();
        for (const Dear dear : {Dear::Area, Dear::Mixed, Dear::Length}) {
            std::vector<Corners> triangles;
            std::vector<CutId> cuts;
            for (std::size_t i = 0; i < loops_.size(); ++i) {
                filler_.fill(loops_[i], dear, triangles);
                cuts.resize(triangles.size(), cuts_[i]);
            }
            const int count = crossings(triangles);
            if (count < fewest) {
                fewest = count;
                best = std::move(triangles);
                bestCuts = std::move(cuts);
            }
            if (fewest == 0) break;
        }
        for (std::size_t i = 0; i < best.size(); ++i) strips_.triangle(best[i][0], best[i][1], best[i][2], bestCuts[i]);
    }

    int crossings(const std::vector<Corners>& triangles) const {
        int count = 0;
        for (std::size_t i = 0; i < triangles.size(); ++i) {
            for (std::size_t k = i + 1; k < triangles.size(); ++k) {
                if (pierces(triangles[i], triangles[k]) || pierces(triangles[k], triangles[i])) ++count;
            }
        }
        return count;
    }
    // Does an edge of `a` that shares no corner with `b` go through `b`?
    bool pierces(const Corners& a, const Corners& b) const {
        for (std::size_t i = 0; i < 3; ++i) {
            const std::uint32_t p = a[i];
            const std::uint32_t q = a[(i + 1) % 3];
            const bool shares =
                std::find(b.begin(), b.end(), p) != b.end() || std::find(b.begin(), b.end(), q) != b.end();
            if (!shares && strips_.pierces(p, q, b)) return true;
        }
        return false;
    }

    MeshStrips& strips_;
    LoopFiller filler_;
    std::vector<Loop3> loops_;
    std::vector<CutId> cuts_;
};

}  // namespace

MeshWall meshWall(const MeshNode& first, const MeshNode& second, bool through, const MeshTies& ties) {
    WallMaker maker(first, second, ties);
    return through ? maker.through() : maker.byOverlap();
}

void fillCell(const MeshCell& cell, MeshStrips& strips) {
    CellFiller(strips).fill(cell);
}

}  // namespace firstoff
