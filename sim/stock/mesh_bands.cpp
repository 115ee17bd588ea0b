#include "sim/stock/mesh_bands.h"

#include <algorithm>
#include <cstddef>

namespace firstoff {

namespace {

using Kind = MeshBand::Kind;

bool onAxis(const std::vector<Interval>& solids) {
    return !solids.empty() && solids.front().inner < kMeshPlaceMm;
}

// Stretches of neighbouring columns that run on one by one.
bool runOn(const std::vector<Interval>& a, const std::vector<Interval>& b) {
    if (a.size() != b.size() || onAxis(a) != onAxis(b)) return false;
    return std::equal(a.begin(), a.end(), b.begin(), joined);
}

class BandFinder {
public:
    explicit BandFinder(const Billet& billet) : billet_(billet), chunks_(billet.grid().chunks()) {}

    std::vector<MeshBand> bands() {
        std::vector<MeshBand> result;
        for (int c = 0; c < chunks_; ++c) {
            const Kind kind = kindOf(c, result.empty() ? Kind::Round : result.back().kind);
            if (!result.empty() && result.back().kind == kind) {
                result.back().endChunk = c + 1;
            } else {
                result.push_back({kind, c, c + 1});
            }
        }
        return result;
    }

private:
    // A plain chunk must run on from its left neighbour; and into its right one if that is round.
    Kind kindOf(int chunk, Kind left) {
        if (billet_.isRound(chunk)) return Kind::Round;
        if (chunk == 0 || chunk + 1 == chunks_ || !isThrough(chunk)) return Kind::Knotty;
        if (left != Kind::Knotty && !runsOnInto(chunk)) return Kind::Knotty;
        if (billet_.isRound(chunk + 1) && !runsOnInto(chunk + 1)) return Kind::Knotty;
        return Kind::Plain;
    }

    // All columns of all meridians have the same number of stretches, one or more, and run on from column to column.
    bool isThrough(int chunk) {
        billet_.intervals(chunk * kChunkColumns, first_, 0);
        if (first_.empty()) return false;
        for (int j = 0; j < billet_.sectors(); ++j) {
            // Meridians that look alike need one look.
            if (j > 0 && &billet_.chunk(chunk, j) == &billet_.chunk(chunk, j - 1)) continue;
            const ChunkBounds& bounds = billet_.bounds(chunk, j);
            const bool axis = bounds.maxInner < kMeshPlaceMm;
            const bool onePlainStretch = billet_.isPlain(chunk, j) && (axis || bounds.minInner >= kMeshPlaceMm);
            if (onePlainStretch ? first_.size() != 1 || axis != onAxis(first_) : !columnsRunOn(chunk, j)) return false;
        }
        return true;
    }

    bool columnsRunOn(int chunk, int sector) {
        const int base = chunk * kChunkColumns;
        const int end = std::min(base + kChunkColumns, billet_.grid().columns);
        billet_.intervals(base, here_, sector);
        if (here_.size() != first_.size() || onAxis(here_) != onAxis(first_)) return false;
        for (int column = base + 1; column < end; ++column) {
            before_.swap(here_);
            billet_.intervals(column, here_, sector);
            if (!runOn(before_, here_)) return false;
        }
        return true;
    }

    bool runsOnInto(int chunk) {
        const int column = chunk * kChunkColumns;
        for (int j = 0; j < billet_.sectors(); ++j) {
            billet_.intervals(column - 1, before_, j);
            billet_.intervals(column, here_, j);
            if (!runOn(before_, here_)) return false;
        }
        return true;
    }

    const Billet& billet_;
    int chunks_;
    std::vector<Interval> first_, before_, here_;
};

}  // namespace

std::vector<MeshBand> meshBands(const Billet& billet) {
    return BandFinder(billet).bands();
}

}  // namespace firstoff
