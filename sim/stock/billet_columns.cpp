#include "sim/stock/billet_columns.h"

#include <algorithm>
#include <atomic>
#include <bit>
#include <cassert>
#include <cmath>

#include "sim/base/units.h"
#include "sim/stock/column_kernels.h"
#include "sim/stock/slab_cutter.h"

namespace firstoff {

namespace {

constexpr double kFinestPitchMm = 0.002;
constexpr double kMostColumns = 150000;

std::shared_ptr<Surface> uniformSurface(double r) {
    auto surface = std::make_shared<Surface>();
    surface->r.fill(r);
    surface->cut.fill(kUncut);
    return surface;
}

std::shared_ptr<Chunk> uniformChunk(double outer, double inner) {
    auto chunk = std::make_shared<Chunk>();
    chunk->outer.r.fill(outer);
    chunk->outer.cut.fill(kUncut);
    chunk->inner = uniformSurface(inner);
    return chunk;
}

// The value itself if nobody shares it, else a copy that nobody shares. A worker that gave up its share of the value a
// moment ago has finished reading it: the fence makes that so in every memory model.
template <typename T>
T& owned(std::shared_ptr<T>& ref) {
    if (ref.use_count() != 1) ref = std::make_shared<T>(*ref);
#ifndef __SANITIZE_THREAD__  // does not know fences, and finds no race without
    std::atomic_thread_fence(std::memory_order_acquire);
#endif
    return *ref;
}

std::uint64_t mixed(std::uint64_t hash, std::uint64_t value) {
    hash = (hash ^ value) * 0x9e3779b97f4a7c15u;
    return hash ^ (hash >> 29);
}

std::uint64_t bits(double value) {
    return std::bit_cast<std::uint64_t>(value + 0.0);
}

}  // namespace

double pitchFor(const Stock& stock) {
    const double wanted = (stock.frontZ - stock.backZ) / kMostColumns;
    if (wanted <= kFinestPitchMm) return kFinestPitchMm;
    // 2, 2.5, 4, 5, 10 and so on µm, so that whole hundredths of a millimetre stay on the borders of columns.
    for (double decade = 0.001;; decade *= 10) {
        for (double step : {2.0, 2.5, 4.0, 5.0, 10.0}) {
            if (step * decade >= wanted) return step * decade;
        }
    }
}

Billet::Billet(const Stock& stock, double pitchMm) {
    grid_.pitch = pitchMm > 0 ? pitchMm : pitchFor(stock);
    assert(stock.frontZ > stock.backZ && stock.outerRadius > stock.boreRadius);
    // Half a pitch of rounding decides to which column an end belongs; a thousandth of it keeps round numbers round.
    const double first = std::floor(stock.backZ / grid_.pitch + 1e-3);
    const double last = std::ceil(stock.frontZ / grid_.pitch - 1e-3);
    grid_.z0 = first * grid_.pitch;
    grid_.columns = std::max(1, static_cast<int>(last - first));
    chunks_.assign(static_cast<std::size_t>(grid_.chunks()), uniformChunk(stock.outerRadius, stock.boreRadius));
    bounds_.resize(chunks_.size());
    slabMaxOuter_.resize(static_cast<std::size_t>(grid_.slabs()));
    slabMinInner_.resize(slabMaxOuter_.size());
    slabLeans_.resize(slabMaxOuter_.size());
    clearTail();
    for (int c = 0; c < grid_.chunks(); ++c) measureChunk(c);
    for (int slab = 0; slab < grid_.slabs(); ++slab) boundSlab(slab);
}

Billet Billet::emptyLike(const Billet& other) {
    Billet billet;
    billet.grid_ = other.grid_;
    billet.chunks_.assign(other.chunks_.size(), uniformChunk(0, 0));
    billet.bounds_.assign(other.bounds_.size(), ChunkBounds{});
    billet.slabMaxOuter_.assign(other.slabMaxOuter_.size(), 0);
    billet.slabMinInner_.assign(other.slabMinInner_.size(), 0);
    billet.slabLeans_.assign(other.slabLeans_.size(), 0);
    return billet;
}

// Columns past the end of the bar, which only fill the last chunk.
void Billet::clearTail() {
    const int used = grid_.columns - (grid_.chunks() - 1) * kChunkColumns;
    if (used == kChunkColumns) return;
    Chunk& chunk = ownChunk(grid_.chunks() - 1);
    Surface& inner = ownInner(chunk);
    for (std::size_t k = static_cast<std::size_t>(used); k < kChunkColumns; ++k) {
        chunk.outer.r[k] = 0;
        inner.r[k] = 0;
    }
}

Chunk& Billet::ownChunk(int index) {
    return owned(chunks_[static_cast<std::size_t>(index)]);
}

Surface& Billet::ownInner(Chunk& chunk) {
    return owned(chunk.inner);
}

void Billet::measureChunk(int index) {
    const Chunk& c = chunk(index);
    const kernel::Extremes outer = kernel::extremes(c.outer.r.data());
    const kernel::Extremes inner = kernel::extremes(c.inner->r.data());
    setBounds(index, {outer.max, outer.min, inner.min, inner.max, !c.gaps.empty()});
}

void Billet::boundSlab(int slab) {
    const int first = slab * kSlabChunks;
    const int last = std::min(first + kSlabChunks, grid_.chunks());
    double maxOuter = 0;
    double minInner = bounds(first).minInner;
    for (int c = first; c < last; ++c) {
        maxOuter = std::max(maxOuter, bounds(c).maxOuter);
        minInner = std::min(minInner, bounds(c).minInner);
    }
    slabMaxOuter_[static_cast<std::size_t>(slab)] = maxOuter;
    slabMinInner_[static_cast<std::size_t>(slab)] = minInner;
}

Removed Billet::cut(const Sweep& sweep, const ToolShape& shape, CutId cut) {
    std::vector<SweepProfile> profiles;
    std::vector<Branch> branches;
    appendProfiles(sweep, shape, grid_, cut, profiles, branches);
    CutSum sum;
    SlabCutter cutter;
    for (const SweepProfile& profile : profiles) {
        const int firstSlab = profile.firstColumn / (kChunkColumns * kSlabChunks);
        const int lastSlab = profile.lastColumn / (kChunkColumns * kSlabChunks);
        for (int slab = firstSlab; slab <= lastSlab; ++slab) {
            CutSum part;
            cutter.cut(*this, slab, profile, branches.data(), part);
            sum.add(part);
        }
    }
    return {sum.area * kPi * grid_.pitch, sum.deepestMm, sum.atZ};
}

double Billet::deepestTouch(const Sweep& sweep, const Outline& outline) const {
    return deepestTouch(sweep, toolShape(outline));
}

double Billet::deepestTouch(const Sweep& sweep, const ToolShape& shape) const {
    std::vector<SweepProfile> profiles;
    std::vector<Branch> branches;
    appendProfiles(sweep, shape, grid_, 0, profiles, branches);
    SlabCutter cutter;
    double deepest = 0;
    for (const SweepProfile& profile : profiles) {
        const int firstSlab = profile.firstColumn / (kChunkColumns * kSlabChunks);
        const int lastSlab = profile.lastColumn / (kChunkColumns * kSlabChunks);
        for (int slab = firstSlab; slab <= lastSlab; ++slab) {
            deepest = std::max(deepest, cutter.touch(*this, slab, profile, branches.data()).deepestMm);
        }
    }
    return deepest;
}

double Billet::volumeMm3() const {
    double area = 0;
    for (int c = 0; c < grid_.chunks(); ++c) {
        const Chunk& k = chunk(c);
        area += kernel::areaBetween(k.outer.r.data(), k.inner->r.data());
        for (const Gap& gap : k.gaps) area -= (gap.hi - gap.lo) * (gap.hi + gap.lo);
    }
    return area * kPi * grid_.pitch;
}

std::uint64_t Billet::hash() const {
    std::uint64_t h = mixed(static_cast<std::uint64_t>(grid_.columns), bits(grid_.pitch));
    for (int c = 0; c < grid_.chunks(); ++c) {
        const Chunk& k = chunk(c);
        for (std::size_t i = 0; i < kChunkColumns; ++i) {
            h = mixed(h, bits(k.outer.r[i]));
            h = mixed(h, bits(k.inner->r[i]));
            h = mixed(h, (std::uint64_t{k.outer.cut[i]} << 32) | k.inner->cut[i]);
        }
        for (const Gap& gap : k.gaps) {
            h = mixed(h, gap.column);
            h = mixed(h, bits(gap.lo));
            h = mixed(h, bits(gap.hi));
            h = mixed(h, (std::uint64_t{gap.loCut} << 32) | gap.hiCut);
        }
    }
    return h;
}

void Billet::intervals(int column, std::vector<Interval>& out) const {
    out.clear();
    if (column < 0 || column >= grid_.columns) return;
    const Chunk& c = chunk(column / kChunkColumns);
    const std::size_t k = static_cast<std::size_t>(column % kChunkColumns);
    if (c.outer.r[k] <= c.inner->r[k]) return;
    Interval solid{c.inner->r[k], c.outer.r[k], c.inner->cut[k], c.outer.cut[k]};
    auto gap =
        std::lower_bound(c.gaps.begin(), c.gaps.end(), k, [](const Gap& g, std::size_t at) { return g.column < at; });
    for (; gap != c.gaps.end() && gap->column == k; ++gap) {
        out.push_back({solid.inner, gap->lo, solid.innerCut, gap->loCut});
        solid.inner = gap->hi;
        solid.innerCut = gap->hiCut;
    }
    out.push_back(solid);
}

void Billet::setIntervals(int column, const std::vector<Interval>& solids) {
    Chunk& c = ownChunk(column / kChunkColumns);
    Surface& inner = ownInner(c);
    const std::size_t k = static_cast<std::size_t>(column % kChunkColumns);
    const auto before = [](const Gap& g, std::size_t at) { return g.column < at; };
    auto gap = std::lower_bound(c.gaps.begin(), c.gaps.end(), k, before);
    gap = c.gaps.erase(gap, std::lower_bound(gap, c.gaps.end(), k + 1, before));
    if (solids.empty()) {
        c.outer.r[k] = inner.r[k] = 0;
    } else {
        inner.r[k] = solids.front().inner;
        inner.cut[k] = solids.front().innerCut;
        c.outer.r[k] = solids.back().outer;
        c.outer.cut[k] = solids.back().outerCut;
        for (std::size_t i = 1; i < solids.size(); ++i) {
            const Gap fresh{solids[i - 1].outer, solids[i].inner, solids[i - 1].outerCut, solids[i].innerCut,
                            static_cast<std::uint32_t>(k)};
            gap = c.gaps.insert(gap, fresh) + 1;
        }
    }
    measureChunk(column / kChunkColumns);
    boundSlab(column / (kChunkColumns * kSlabChunks));
}

CutId Billet::lastCut(int column) const {
    if (column < 0 || column >= grid_.columns) return kUncut;
    return chunk(column / kChunkColumns).outer.cut[static_cast<std::size_t>(column % kChunkColumns)];
}

}  // namespace firstoff
