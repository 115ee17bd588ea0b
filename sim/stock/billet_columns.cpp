#include "sim/stock/billet_columns.h"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>

#include "sim/base/units.h"
#include "sim/stock/column_kernels.h"
#include "sim/stock/slab_cutter.h"
#include "sim/stock/stamps.h"

namespace firstoff {

namespace {

constexpr double kFinestPitchMm = 0.002;
constexpr double kMostColumns = 150000;

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

Billet Billet::emptyLike(const Billet& other) {
    Billet billet;
    billet.grid_ = other.grid_;
    billet.sectorCount_ = other.sectorCount_;
    billet.sectors_.resize(other.sectors_.size());
    billet.chunks_.assign(other.chunks_.size(), chunkOf({}));
    billet.bounds_.assign(other.bounds_.size(), ChunkBounds{});
    billet.slabMaxOuter_.assign(other.slabMaxOuter_.size(), 0);
    billet.slabMinInner_.assign(other.slabMinInner_.size(), 0);
    billet.slabLeans_.assign(other.slabLeans_.size(), 0);
    return billet;
}

Chunk& Billet::ownChunk(int index) {
    return soleOwner(chunks_[static_cast<std::size_t>(index)]);
}

Surface& Billet::ownInner(Chunk& chunk) {
    return soleOwner(chunk.inner);
}

ChunkBounds measured(const Chunk& chunk) {
    const kernel::Extremes outer = kernel::extremes(chunk.outer.r.data());
    const kernel::Extremes inner = kernel::extremes(chunk.inner->r.data());
    return {outer.max, outer.min, inner.min, inner.max, !chunk.gaps.empty()};
}

std::shared_ptr<Chunk> chunkOf(const std::vector<Interval>& solids) {
    auto chunk = std::make_shared<Chunk>();
    chunk->inner = std::make_shared<Surface>();
    const Interval first = solids.empty() ? Interval{} : solids.front();
    const Interval last = solids.empty() ? Interval{} : solids.back();
    chunk->outer.r.fill(last.outer);
    chunk->outer.cut.fill(last.outerCut);
    chunk->inner->r.fill(first.inner);
    chunk->inner->cut.fill(first.innerCut);
    for (std::uint32_t k = 0; k < kChunkColumns; ++k) {
        for (std::size_t i = 1; i < solids.size(); ++i) {
            chunk->gaps.push_back(
                {solids[i - 1].outer, solids[i].inner, solids[i - 1].outerCut, solids[i].innerCut, k});
        }
    }
    return chunk;
}

void readColumn(const Chunk& c, std::size_t k, std::vector<Interval>& out) {
    out.clear();
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

ChunkBounds writeColumn(std::shared_ptr<Chunk>& ref, std::size_t k, const std::vector<Interval>& solids) {
    Chunk& c = soleOwner(ref);
    Surface& inner = soleOwner(c.inner);
    const auto before = [](const Gap& g, std::size_t at) { return g.column < at; };
    auto gap = std::lower_bound(c.gaps.begin(), c.gaps.end(), k, before);
    gap = c.gaps.erase(gap, std::lower_bound(gap, c.gaps.end(), k + 1, before));
    if (solids.empty()) {
        c.outer.r[k] = inner.r[k] = 0;
        return measured(c);
    }
    inner.r[k] = solids.front().inner;
    inner.cut[k] = solids.front().innerCut;
    c.outer.r[k] = solids.back().outer;
    c.outer.cut[k] = solids.back().outerCut;
    for (std::size_t i = 1; i < solids.size(); ++i) {
        const Gap fresh{solids[i - 1].outer, solids[i].inner, solids[i - 1].outerCut, solids[i].innerCut,
                        static_cast<std::uint32_t>(k)};
        gap = c.gaps.insert(gap, fresh) + 1;
    }
    return measured(c);
}

std::size_t Sectors::alone(int sector) {
    std::uint16_t& kind = kindOf[static_cast<std::size_t>(sector)];
    if (users[kind] > 1) {
        --users[kind];
        kinds.push_back(kinds[kind]);
        bounds.push_back(bounds[kind]);
        users.push_back(1);
        kind = static_cast<std::uint16_t>(kinds.size() - 1);
    }
    return kind;
}

double Billet::sectorAngle(int sector) const {
    return 2 * kPi * sector / sectorCount_;
}

Sectors& Billet::ownSectors(int index) {
    std::shared_ptr<Sectors>& ref = sectorsRef(index);
    if (ref) return soleOwner(ref);
    ref = std::make_shared<Sectors>();
    ref->kinds.push_back(chunkRef(index));
    ref->bounds.push_back(bounds(index));
    ref->users.push_back(static_cast<std::uint16_t>(sectorCount_));
    ref->kindOf.assign(static_cast<std::size_t>(sectorCount_), 0);
    return *ref;
}

namespace {

bool alike(const Surface& a, const Surface& b) {
    return &a == &b || (a.r == b.r && a.cut == b.cut);
}

bool alike(const Chunk& a, const Chunk& b) {
    const auto same = [](const Gap& x, const Gap& y) {
        return x.lo == y.lo && x.hi == y.hi && x.loCut == y.loCut && x.hiCut == y.hiCut && x.column == y.column;
    };
    return &a == &b || (alike(a.outer, b.outer) && alike(*a.inner, *b.inner) &&
                        std::equal(a.gaps.begin(), a.gaps.end(), b.gaps.begin(), b.gaps.end(), same));
}

}  // namespace

bool Billet::joinSectors(int index) {
    std::shared_ptr<Sectors>& ref = sectorsRef(index);
    if (!ref) return false;
    const Chunk& first = *ref->kinds.front();
    for (const std::shared_ptr<Chunk>& kind : ref->kinds) {
        if (!alike(first, *kind)) return false;
    }
    chunkRef(index) = ref->kinds.front();
    bounds_[static_cast<std::size_t>(index)] = ref->bounds.front();
    ref.reset();
    return true;
}

void Billet::measureChunk(int index) {
    setBounds(index, measured(chunk(index)));
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

namespace {

Removed cutProfiles(Billet& billet, const std::vector<SweepProfile>& profiles, const SweepParts& parts) {
    CutSum sum;
    SlabCutter cutter;
    for (const SweepProfile& profile : profiles) {
        const int firstSlab = profile.firstColumn / (kChunkColumns * kSlabChunks);
        const int lastSlab = profile.lastColumn / (kChunkColumns * kSlabChunks);
        for (int slab = firstSlab; slab <= lastSlab; ++slab) {
            CutSum part;
            cutter.cut(billet, slab, profile, parts, part);
            sum.add(part);
        }
    }
    return {sum.area * kPi * billet.grid().pitch, sum.deepestMm, sum.atZ};
}

}  // namespace

Removed Billet::cut(const Sweep& sweep, const ToolShape& shape, CutId cut) {
    std::vector<SweepProfile> profiles;
    std::vector<Branch> branches;
    appendProfiles(sweep, shape, grid_, cut, profiles, branches);
    return cutProfiles(*this, profiles, {branches.data(), nullptr});
}

Removed Billet::stamp(const Sweep& sweep, const SpindleTurns& turns, const ToolShape& shape, CutId cut) {
    std::vector<SweepProfile> profiles;
    std::vector<Branch> branches;
    std::vector<StampRun> runs;
    appendStamps(sweep, turns, shape, grid_, sectorCount_, cut, profiles, branches, runs);
    return cutProfiles(*this, profiles, {branches.data(), runs.data()});
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
            deepest = std::max(deepest, cutter.touch(*this, slab, profile, {branches.data(), nullptr}).deepestMm);
        }
    }
    return deepest;
}

namespace {

// Sum of r² differences over the columns.
double areaOf(const Chunk& chunk) {
    double area = kernel::areaBetween(chunk.outer.r.data(), chunk.inner->r.data());
    for (const Gap& gap : chunk.gaps) area -= (gap.hi - gap.lo) * (gap.hi + gap.lo);
    return area;
}

std::uint64_t hashOf(const Chunk& chunk, std::uint64_t h) {
    for (std::size_t i = 0; i < kChunkColumns; ++i) {
        h = mixed(h, bits(chunk.outer.r[i]));
        h = mixed(h, bits(chunk.inner->r[i]));
        h = mixed(h, (std::uint64_t{chunk.outer.cut[i]} << 32) | chunk.inner->cut[i]);
    }
    for (const Gap& gap : chunk.gaps) {
        h = mixed(h, gap.column);
        h = mixed(h, bits(gap.lo));
        h = mixed(h, bits(gap.hi));
        h = mixed(h, (std::uint64_t{gap.loCut} << 32) | gap.hiCut);
    }
    return h;
}

// The same whichever way the sectors are shared out among kinds.
std::uint64_t hashOf(const Sectors& sectors, std::uint64_t h) {
    std::vector<std::uint64_t> kinds;
    for (const std::shared_ptr<Chunk>& kind : sectors.kinds) kinds.push_back(hashOf(*kind, 0));
    for (const std::uint16_t kind : sectors.kindOf) h = mixed(h, kinds[kind]);
    return h;
}

}  // namespace

double Billet::volumeMm3() const {
    double area = 0;
    for (int c = 0; c < grid_.chunks(); ++c) {
        if (isRound(c)) {
            area += areaOf(chunk(c));
            continue;
        }
        const Sectors& s = *sectorsRef(c);
        double sum = 0;
        for (std::size_t k = 0; k < s.kinds.size(); ++k) sum += areaOf(*s.kinds[k]) * s.users[k];
        area += sum / sectorCount_;
    }
    return area * kPi * grid_.pitch;
}

std::uint64_t Billet::hash() const {
    std::uint64_t h = mixed(static_cast<std::uint64_t>(grid_.columns), bits(grid_.pitch));
    for (int c = 0; c < grid_.chunks(); ++c) {
        h = hashOf(chunk(c), h);
        if (!isRound(c)) h = hashOf(*sectorsRef(c), h);
    }
    return h;
}

void Billet::intervals(int column, std::vector<Interval>& out, int sector) const {
    out.clear();
    if (column < 0 || column >= grid_.columns) return;
    readColumn(chunk(column / kChunkColumns, sector), static_cast<std::size_t>(column % kChunkColumns), out);
}

void Billet::setIntervals(int column, const std::vector<Interval>& solids) {
    const int index = column / kChunkColumns;
    setBounds(index, writeColumn(chunkRef(index), static_cast<std::size_t>(column % kChunkColumns), solids));
    boundSlab(column / (kChunkColumns * kSlabChunks));
}

void Billet::takeKinds(const Billet& other, int index) {
    if (!isRound(index)) return;
    const Sectors& theirs = *other.sectorsRef(index);
    auto sectors = std::make_shared<Sectors>(theirs);
    for (std::shared_ptr<Chunk>& kind : sectors->kinds) kind = chunkOf({});
    for (ChunkBounds& bound : sectors->bounds) bound = {};
    sectorsRef(index) = std::move(sectors);
}

void Billet::setLastCut(int column, CutId cut) {
    const int index = column / kChunkColumns;
    const auto k = static_cast<std::size_t>(column % kChunkColumns);
    const auto say = [&](std::shared_ptr<Chunk>& chunk) {
        if (chunk->outer.r[k] <= chunk->inner->r[k]) soleOwner(chunk).outer.cut[k] = cut;
    };
    say(chunkRef(index));
    if (isRound(index)) return;
    for (std::shared_ptr<Chunk>& kind : ownSectors(index).kinds) say(kind);
}

CutId Billet::lastCut(int column, int sector) const {
    if (column < 0 || column >= grid_.columns) return kUncut;
    return chunk(column / kChunkColumns, sector).outer.cut[static_cast<std::size_t>(column % kChunkColumns)];
}

}  // namespace firstoff
