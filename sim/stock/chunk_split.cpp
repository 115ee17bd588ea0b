#include "sim/stock/chunk_split.h"

#include <algorithm>

#include "sim/stock/column_split.h"

namespace firstoff {

ChunkLoss ChunkSplitter::split(std::shared_ptr<Chunk>& chunk, const Stretches& stretches, CutId cut) {
    chunk_ = &soleOwner(chunk);
    cut_ = cut;
    nextGap_ = 0;
    gaps_.clear();
    loss_ = {};
    for (int k = 0; k < kChunkColumns; ++k) splitColumn(k, stretches.lo[k], stretches.hi[k]);
    if (loss_.lastChanged >= 0) chunk_->gaps.assign(gaps_.begin(), gaps_.end());
    return loss_;
}

void ChunkSplitter::splitColumn(int column, double lo, double hi) {
    const std::size_t k = static_cast<std::size_t>(column);
    const std::size_t firstGap = nextGap_;
    while (nextGap_ < chunk_->gaps.size() && chunk_->gaps[nextGap_].column == k) ++nextGap_;
    const double outer = chunk_->outer.r[k];
    const double inner = chunk_->inner->r[k];
    if (lo >= hi || lo >= outer || hi <= inner) {
        keepGaps(firstGap, nextGap_);
        return;
    }
    if (firstGap == nextGap_ && hi >= outer && lo > inner) {
        chunk_->outer.r[k] = lo;
        chunk_->outer.cut[k] = cut_;
        note(column, (outer - lo) * (outer + lo), outer - lo);
        return;
    }
    readColumn(k, firstGap, nextGap_);
    const ColumnLoss loss = takeOut(solids_, lo, hi, cut_);
    if (loss.depth <= 0) {
        keepGaps(firstGap, nextGap_);
        return;
    }
    writeColumn(k);
    note(column, loss.area, loss.depth);
}

void ChunkSplitter::readColumn(std::size_t column, std::size_t firstGap, std::size_t endGap) {
    solids_.clear();
    Interval solid{chunk_->inner->r[column], chunk_->outer.r[column], chunk_->inner->cut[column],
                   chunk_->outer.cut[column]};
    for (std::size_t g = firstGap; g < endGap; ++g) {
        const Gap& gap = chunk_->gaps[g];
        solids_.push_back({solid.inner, gap.lo, solid.innerCut, gap.loCut});
        solid.inner = gap.hi;
        solid.innerCut = gap.hiCut;
    }
    solids_.push_back(solid);
}

void ChunkSplitter::writeColumn(std::size_t column) {
    const Interval inside = solids_.empty() ? Interval{0, 0, kUncut, cut_} : solids_.front();
    const Interval outside = solids_.empty() ? inside : solids_.back();
    chunk_->outer.r[column] = outside.outer;
    chunk_->outer.cut[column] = outside.outerCut;
    if (chunk_->inner->r[column] != inside.inner) {
        Surface& inner = soleOwner(chunk_->inner);
        inner.r[column] = inside.inner;
        inner.cut[column] = inside.innerCut;
    }
    for (std::size_t s = 1; s < solids_.size(); ++s) {
        gaps_.push_back({solids_[s - 1].outer, solids_[s].inner, solids_[s - 1].outerCut, solids_[s].innerCut,
                         static_cast<std::uint32_t>(column)});
    }
}

void ChunkSplitter::keepGaps(std::size_t firstGap, std::size_t endGap) {
    for (std::size_t g = firstGap; g < endGap; ++g) gaps_.push_back(chunk_->gaps[g]);
}

void ChunkSplitter::note(int column, double area, double depth) {
    loss_.firstChanged = std::min(loss_.firstChanged, column);
    loss_.lastChanged = column;
    loss_.area += area;
    if (depth <= loss_.deepest) return;
    loss_.deepest = depth;
    loss_.deepestColumn = column;
}

}  // namespace firstoff
