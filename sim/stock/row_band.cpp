#include "sim/stock/row_band.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include "sim/base/units.h"
#include "sim/stock/mesh_cells.h"

namespace firstoff {

namespace {

// Straight lines that stay within the tolerance of one side since the last row.
struct Funnel {
    double r0 = 0;
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();

    // `way`: columns since the last row. False: no line reaches this place and passes the ones before it.
    bool takes(double r, double way, double tolerance) {
        const double slope = (r - r0) / way;
        if (slope < low || slope > high) return false;
        low = std::max(low, slope - tolerance / way);
        high = std::min(high, slope + tolerance / way);
        return true;
    }
};

bool runOn(const std::vector<Interval>& a, const std::vector<Interval>& b) {
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), joined);
}

class RowChooser {
public:
    RowChooser(const Billet& billet, double toleranceMm, std::span<const int> sectors)
        : billet_(billet), tolerance_(toleranceMm), sectors_(sectors), before_(sectors.size()), here_(sectors.size()) {}

    std::vector<int> choose(int first, int end) {
        std::vector<int> rows{first};
        read(first);
        startFunnels();
        for (int column = first + 1; column < end; ++column) {
            before_.swap(here_);
            read(column);
            if (!allRunOn()) {
                if (rows.back() != column - 1) rows.push_back(column - 1);
                rows.push_back(column);
                startFunnels();
            } else if (!funnelsTake(column - rows.back())) {
                rows.push_back(column - 1);
                here_.swap(before_);
                startFunnels();
                here_.swap(before_);
                funnelsTake(1);
            }
        }
        if (rows.back() != end - 1) rows.push_back(end - 1);
        return rows;
    }

private:
    void read(int column) {
        for (std::size_t j = 0; j < sectors_.size(); ++j) billet_.intervals(column, here_[j], sectors_[j]);
    }
    bool allRunOn() const {
        for (std::size_t j = 0; j < sectors_.size(); ++j) {
            if (!runOn(before_[j], here_[j])) return false;
        }
        return true;
    }
    void startFunnels() {
        funnels_.clear();
        for (const std::vector<Interval>& solids : here_) {
            for (const Interval& s : solids) {
                funnels_.push_back({s.inner});
                funnels_.push_back({s.outer});
            }
        }
    }
    bool funnelsTake(int way) {
        std::size_t f = 0;
        bool all = true;
        for (const std::vector<Interval>& solids : here_) {
            for (const Interval& s : solids) {
                all = funnels_[f].takes(s.inner, way, tolerance_) && all;
                all = funnels_[f + 1].takes(s.outer, way, tolerance_) && all;
                f += 2;
            }
        }
        return all;
    }

    const Billet& billet_;
    double tolerance_;
    std::span<const int> sectors_;
    std::vector<std::vector<Interval>> before_, here_;
    std::vector<Funnel> funnels_;
};

struct Row {
    double z = 0;
    bool isBorder = false;  // all nodes have the same sides, one the other's partner
    bool empty = true;
    std::vector<MeshNode> nodes;
    std::vector<MeshWall> walls;  // from each node to the next one round
};

class RowMesher {
public:
    RowMesher(const Billet& billet, std::span<const int> sectors, MeshStrips& strips)
        : billet_(billet), sectors_(sectors), strips_(strips) {}

    void mesh(const std::vector<int>& columns, const MeshBorder& left, const MeshBorder& right) {
        Row below = borderRow(left);
        for (int column : columns) {
            Row above = columnRow(column);
            const double z = below.isBorder ? below.z : billet_.grid().border(column);
            fillBetween(below, above, z);
            below = std::move(above);
        }
        const Row last = borderRow(right);
        fillBetween(below, last, last.z);
    }

private:
    std::size_t next(std::size_t meridian) const { return meridian + 1 < sectors_.size() ? meridian + 1 : 0; }

    Row borderRow(const MeshBorder& border) {
        Row row;
        row.z = border.z;
        row.isBorder = true;
        row.empty = border.sides.empty();
        row.nodes.resize(sectors_.size());
        for (const MeshBorderSide& side : border.sides) {
            for (std::size_t j = 0; j < sectors_.size(); ++j) {
                row.nodes[j].push_back({side.ring.pole ? 0 : side.r[j], side.ring.at[j], side.cut});
            }
        }
        makeWalls(row);
        return row;
    }

    Row columnRow(int column) {
        Row row;
        row.z = billet_.grid().z(column);
        row.nodes.resize(sectors_.size());
        std::vector<std::vector<Interval>> solids(sectors_.size());
        bool allOnAxis = true;
        for (std::size_t j = 0; j < sectors_.size(); ++j) {
            billet_.intervals(column, solids[j], sectors_[j]);
            row.empty = row.empty && solids[j].empty();
            allOnAxis = allOnAxis && !solids[j].empty() && solids[j].front().inner < kMeshPlaceMm;
        }
        const std::uint32_t pole = allOnAxis ? strips_.pole(row.z) : kNoTie;
        for (std::size_t j = 0; j < sectors_.size(); ++j) {
            for (const Interval& s : solids[j]) {
                row.nodes[j].push_back(port(row.z, s.inner, s.innerCut, static_cast<int>(j), pole));
                row.nodes[j].push_back(port(row.z, s.outer, s.outerCut, static_cast<int>(j), pole));
            }
        }
        makeWalls(row);
        return row;
    }

    // Where the metal reaches the axis only in some meridians, it is kept a hair off it: the surface would meet itself
    // there.
    MeshPort port(double z, double r, CutId cut, int meridian, std::uint32_t pole) {
        if (r >= kMeshPlaceMm) return {r, strips_.point({z, r}, meridian), cut};
        if (pole != kNoTie) return {0, pole, cut};
        return {kMeshPlaceMm, strips_.point({z, kMeshPlaceMm}, meridian), cut};
    }

    std::size_t previous(std::size_t meridian) const { return meridian > 0 ? meridian - 1 : sectors_.size() - 1; }

    void makeWalls(Row& row) {
        for (std::size_t j = 0; j < sectors_.size(); ++j) {
            const std::size_t k = next(j);
            row.walls.push_back(meshWall(row.nodes[j], row.nodes[k], row.isBorder,
                                         {[&](std::size_t port) { return endBetween(row, previous(j), j, k, port); },
                                          [&](std::size_t port) { return endBetween(row, next(k), k, j, port); }}));
        }
    }

    // The end of what lies between a port and the next one outwards at the meridian `here`, towards `there`, where it
    // is no more. If it has grown thinner from the meridian before, so that it would come to nothing on the way, it
    // comes to a point there. What only this meridian has, and is thinner than the next one is away, is taken to be the
    // tip of something: its sides come together at a right angle. Otherwise nothing is known but that it ends on the
    // way, and it ends half way.
    MeshTie endBetween(const Row& row, std::size_t before, std::size_t here, std::size_t there, std::size_t port) {
        const MeshPort& low = row.nodes[here][port];
        const MeshPort& high = row.nodes[here][port + 1];
        const auto at = [&](double r, double share) {
            return strips_.pointBetween({row.z, r}, static_cast<int>(here), static_cast<int>(there), share);
        };
        const auto pointed = [&](double r, double share) {
            const std::uint32_t tip = at(r, share);
            return MeshTie{tip, tip};
        };
        const double thick = high.r - low.r;
        const MeshPort* behind = overlapping(row.nodes[before], port % 2, low.r, high.r);
        if (behind != nullptr) {
            const double share = thick / (behind[1].r - behind[0].r - thick);
            const double tip = low.r + share * (low.r - behind[0].r);
            if (share > 0 && share < 1 && tip >= kMeshPlaceMm) return pointed(tip, share);
        } else if (low.r >= kMeshPlaceMm) {
            const double away = low.r * 2 * kPi / static_cast<double>(sectors_.size());
            if (thick < away) return pointed((low.r + high.r) / 2, thick / (2 * away));
        }
        return {low.r == 0 ? low.at : at(low.r, 0.5), at(high.r, 0.5)};
    }

    // The first of the two ports between which a node has the same, metal or gap, somewhere between two radii.
    static const MeshPort* overlapping(const MeshNode& node, std::size_t first, double low, double high) {
        for (std::size_t i = first; i + 1 < node.size(); i += 2) {
            if (std::min(node[i + 1].r, high) > std::max(node[i].r, low)) return &node[i];
        }
        return nullptr;
    }

    // What ends between two rows ends at `borderZ`, the border of the columns there.
    void fillBetween(const Row& below, const Row& above, double borderZ) {
        std::uint32_t pole = kNoTie;
        std::vector<MeshWall> upright;
        for (std::size_t j = 0; j < sectors_.size(); ++j) {
            const auto make = [&](const MeshPort& port) {
                if (port.r > 0) return strips_.point({borderZ, port.r}, static_cast<int>(j));
                if (!below.empty && !above.empty) return strips_.point({borderZ, kMeshPlaceMm}, static_cast<int>(j));
                if (pole == kNoTie) pole = strips_.pole(borderZ);
                return pole;
            };
            const auto ends = [&](const Row& row) {
                return [&, j](std::size_t port) {
                    if (row.isBorder) return MeshTie{kNoTie, kNoTie};
                    return MeshTie{make(row.nodes[j][port]), make(row.nodes[j][port + 1])};
                };
            };
            upright.push_back(meshWall(below.nodes[j], above.nodes[j], false, {ends(below), ends(above)}));
        }
        for (std::size_t j = 0; j < sectors_.size(); ++j) {
            const std::size_t k = next(j);
            fillCell({&below.nodes[j], &below.nodes[k], &above.nodes[k], &above.nodes[j], &below.walls[j], &upright[k],
                      &above.walls[j], &upright[j]},
                     strips_);
        }
    }

    const Billet& billet_;
    std::span<const int> sectors_;
    MeshStrips& strips_;
};

}  // namespace

std::vector<int> rowColumns(const Billet& billet, const MeshBand& band, double sectionMm,
                            std::span<const int> sectors) {
    const int end = std::min(band.endChunk * kChunkColumns, billet.grid().columns);
    return RowChooser(billet, sectionMm, sectors).choose(band.firstChunk * kChunkColumns, end);
}

void meshRows(const Billet& billet, const MeshBand& band, double sectionMm, std::span<const int> sectors,
              MeshStrips& strips, const MeshBorder& left, const MeshBorder& right) {
    RowMesher(billet, sectors, strips).mesh(rowColumns(billet, band, sectionMm, sectors), left, right);
}

}  // namespace firstoff
