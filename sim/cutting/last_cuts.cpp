#include "sim/cutting/last_cuts.h"

#include <algorithm>
#include <limits>

#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

constexpr double kBesideMm = 0.5;    // most insert noses cut this far beside their tip
constexpr double kSurfaceMm = 0.05;  // of length; less is a corner between two cuts
constexpr std::size_t kMostPieces = 50;

void mark(const Billet& billet, LastCuts& cuts) {
    const Grid& grid = billet.grid();
    for (int index = 0; index < grid.chunks(); ++index) {
        if (billet.bounds(index).maxOuter <= 0) continue;
        const Chunk& chunk = billet.chunk(index);
        for (int i = 0; i < kChunkColumns; ++i) {
            const auto c = static_cast<std::size_t>(i);
            const int column = index * kChunkColumns + i;
            if (column >= grid.columns || chunk.outer.r[c] <= 0) continue;
            cuts.mark(chunk.outer.cut[c], grid.z(column));
            if (chunk.inner) cuts.mark(chunk.inner->cut[c], grid.z(column));
        }
    }
}

}  // namespace

void LastCuts::mark(std::uint32_t cut, double z) {
    if (cut >= stretches_.size()) return;
    Stretch& s = stretches_[cut];
    const auto at = static_cast<float>(z);
    if (s.from > s.to) {
        s = {at, at};
    } else {
        s = {std::min(s.from, at), std::max(s.to, at)};
    }
}

bool LastCuts::stands(std::uint32_t cut, double z) const {
    if (cut >= stretches_.size()) return false;
    const Stretch& s = stretches_[cut];
    const double from = double{s.from}, to = double{s.to};
    return to - from >= kSurfaceMm && z >= from - kBesideMm && z <= to + kBesideMm;
}

LastCuts lastCutsOf(const std::shared_ptr<const StockHistory>& stock, StockCursor& cursor, std::size_t timedMoves) {
    LastCuts cuts(timedMoves);
    // A piece as it was just before it fell.
    const std::vector<Severance>& falls = stock->severances();
    for (std::size_t i = 0; i < std::min(falls.size(), kMostPieces); ++i) {
        cursor.seek(falls[i].timedMove, 0);
        mark(cursor.billet(), cuts);
    }
    cursor.seek(std::numeric_limits<std::uint32_t>::max(), 0);
    mark(cursor.billet(), cuts);
    return cuts;
}

}  // namespace firstoff
