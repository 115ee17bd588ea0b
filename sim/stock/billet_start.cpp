// The columns of the blank before anything is cut.
#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/stock/billet_columns.h"
#include "sim/stock/blank.h"
#include "sim/stock/left_over.h"

namespace firstoff {

namespace {

constexpr double kAlikeMm = 1e-9;  // sectors that differ by rounding only share their columns

bool alike(const std::vector<Interval>& a, const std::vector<Interval>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Interval& x, const Interval& y) {
        return std::abs(x.inner - y.inner) <= kAlikeMm && std::abs(x.outer - y.outer) <= kAlikeMm;
    });
}

// What is metal in any of the sectors.
std::vector<Interval> unionOf(const std::vector<std::vector<Interval>>& bySector) {
    std::vector<Interval> all;
    for (const std::vector<Interval>& solids : bySector) all.insert(all.end(), solids.begin(), solids.end());
    std::sort(all.begin(), all.end(), [](const Interval& a, const Interval& b) { return a.inner < b.inner; });
    std::vector<Interval> joined;
    for (const Interval& solid : all) {
        if (!joined.empty() && solid.inner <= joined.back().outer) {
            if (solid.outer > joined.back().outer) joined.back().outer = solid.outer;
        } else {
            joined.push_back(solid);
        }
    }
    return joined;
}

// Sorts sectors into kinds: first sector of each kind, and the kind of every sector.
struct Kinds {
    std::vector<std::size_t> first;
    std::vector<std::uint16_t> kindOf, users;
};

Kinds kindsOf(const std::vector<std::vector<Interval>>& bySector) {
    Kinds kinds;
    for (std::size_t sector = 0; sector < bySector.size(); ++sector) {
        const auto known = std::find_if(kinds.first.begin(), kinds.first.end(),
                                        [&](std::size_t first) { return alike(bySector[first], bySector[sector]); });
        const auto kind = static_cast<std::uint16_t>(known - kinds.first.begin());
        if (known == kinds.first.end()) {
            kinds.first.push_back(sector);
            kinds.users.push_back(0);
        }
        ++kinds.users[kind];
        kinds.kindOf.push_back(kind);
    }
    return kinds;
}

}  // namespace

Billet::Billet(const Stock& stock, double pitchMm, int sectors, const LeftOver* left) {
    const int wanted = left ? left->sectors() : wantedSectors(stock);
    sectorCount_ = sectors > 0 ? sectors : wanted > 1 ? wanted : kThreadSectors;
    grid_.pitch = pitchMm > 0 ? pitchMm : pitchFor(stock);
    assert(stock.frontZ > stock.backZ && stock.outerRadius > stock.boreRadius);
    // Half a pitch of rounding decides to which column an end belongs; a thousandth of it keeps round numbers round.
    const double first = std::floor(stock.backZ / grid_.pitch + 1e-3);
    const double last = std::ceil(stock.frontZ / grid_.pitch - 1e-3);
    grid_.z0 = first * grid_.pitch;
    grid_.columns = std::max(1, static_cast<int>(last - first));
    chunks_.resize(static_cast<std::size_t>(grid_.chunks()));
    sectors_.resize(chunks_.size());
    bounds_.resize(chunks_.size());
    slabMaxOuter_.resize(static_cast<std::size_t>(grid_.slabs()));
    slabMinInner_.resize(slabMaxOuter_.size());
    slabLeans_.resize(slabMaxOuter_.size());
    if (left) {
        fillFrom(*left);
    } else {
        fillFrom(stock);
    }
    clearTail();
    for (int c = 0; c < grid_.chunks(); ++c) measureChunk(c);
    for (int slab = 0; slab < grid_.slabs(); ++slab) boundSlab(slab);
}

void Billet::fillFrom(const Stock& stock) {
    if (stock.shape == Stock::Shape::Previous || (stock.shape == Stock::Shape::Round && stock.eccentricity == 0)) {
        fillAlike({{{stock.boreRadius, stock.outerRadius}}});
        return;
    }
    const Blank blank(stock);
    if (stock.shape != Stock::Shape::HalfSection) {
        std::vector<std::vector<Interval>> bySector;
        for (int sector = 0; sector < sectorCount_; ++sector) {
            bySector.push_back(blank.column((stock.backZ + stock.frontZ) / 2, sectorAngle(sector)));
        }
        fillAlike(bySector);
        return;
    }
    for (int c = 0; c < grid_.chunks(); ++c) {
        std::shared_ptr<Chunk>& chunk = chunkRef(c);
        chunk = chunkOf({});
        for (int k = 0; k < kChunkColumns; ++k) {
            writeColumn(chunk, static_cast<std::size_t>(k), blank.column(grid_.z(c * kChunkColumns + k), 0));
        }
    }
}

// All along the bar the same; one list of stretches stands for all sectors.
void Billet::fillAlike(const std::vector<std::vector<Interval>>& bySector) {
    std::fill(chunks_.begin(), chunks_.end(), chunkOf(unionOf(bySector)));
    const Kinds kinds = kindsOf(bySector);
    if (kinds.first.size() == 1) return;
    auto sectors = std::make_shared<Sectors>();
    for (const std::size_t first : kinds.first) {
        sectors->kinds.push_back(chunkOf(bySector[first]));
        sectors->bounds.push_back(measured(*sectors->kinds.back()));
    }
    sectors->kindOf = kinds.kindOf;
    sectors->users = kinds.users;
    std::fill(sectors_.begin(), sectors_.end(), sectors);
}

void Billet::fillFrom(const LeftOver& left) {
    std::vector<std::vector<Interval>> bySector(static_cast<std::size_t>(sectorCount_));
    for (int c = 0; c < grid_.chunks(); ++c) {
        chunkRef(c) = chunkOf({});
        std::vector<std::shared_ptr<Chunk>> chunks(bySector.size());
        for (int k = 0; k < kChunkColumns; ++k) {
            const auto at = static_cast<std::size_t>(k);
            const double z = grid_.z(c * kChunkColumns + k);
            if (left.isRoundAt(z) && !chunks.front()) {
                writeColumn(chunkRef(c), at, left.column(z, 0));
                continue;
            }
            for (std::size_t sector = 0; sector < bySector.size(); ++sector) {
                if (!chunks[sector]) chunks[sector] = chunkRef(c);
                bySector[sector] = left.column(z, sectorAngle(static_cast<int>(sector)));
                writeColumn(chunks[sector], at, bySector[sector]);
            }
            writeColumn(chunkRef(c), at, unionOf(bySector));
        }
        if (!chunks.front()) continue;
        Sectors& sectors = ownSectors(c);
        sectors = {};
        for (std::size_t sector = 0; sector < chunks.size(); ++sector) {
            sectors.kinds.push_back(chunks[sector]);
            sectors.bounds.push_back(measured(*chunks[sector]));
            sectors.users.push_back(1);
            sectors.kindOf.push_back(static_cast<std::uint16_t>(sector));
        }
        joinSectors(c);
    }
}

// Columns past the end of the bar, which only fill the last chunk.
void Billet::clearTail() {
    const int last = grid_.chunks() - 1;
    const int used = grid_.columns - last * kChunkColumns;
    if (used == kChunkColumns) return;
    for (int k = used; k < kChunkColumns; ++k) writeColumn(chunkRef(last), static_cast<std::size_t>(k), {});
    if (isRound(last)) return;
    Sectors& sectors = ownSectors(last);
    for (std::size_t kind = 0; kind < sectors.kinds.size(); ++kind) {
        for (int k = used; k < kChunkColumns; ++k) {
            sectors.bounds[kind] = writeColumn(sectors.kinds[kind], static_cast<std::size_t>(k), {});
        }
    }
}

}  // namespace firstoff
