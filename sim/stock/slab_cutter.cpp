#include "sim/stock/slab_cutter.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/stock/column_kernels.h"
#include "sim/stock/hold.h"

namespace firstoff {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

// A sector takes as long to stamp as one or two chunks take to look at. It counts for less: keyframes stand the further
// apart, since every one of a thread is some hundred times as large as others.
constexpr std::uint64_t kStampsForOneVisit = 16;

// First and last group of lanes of a chunk that a span of z touches, with a column to spare for rounding.
int laneFrom(double z, double chunkBorder, double perMm) {
    const double k = (z - chunkBorder) * perMm - 1;
    if (!(k > 0)) return 0;
    return k >= kChunkColumns ? kChunkColumns : static_cast<int>(k) & ~(kernel::kLanes - 1);
}

int laneTo(double z, double chunkBorder, double perMm) {
    const double k = (z - chunkBorder) * perMm + 1;
    if (!(k > 0)) return 0;
    if (k >= kChunkColumns - 1) return kChunkColumns;
    return (static_cast<int>(k) + kernel::kLanes) & ~(kernel::kLanes - 1);
}

double atCentreHeight(double x, double height) {
    return height == 0 ? x : std::sqrt(x * x + height * height);
}

// The solid stretches of one column after another, without looking each one up.
class ColumnWalk {
public:
    ColumnWalk(const Billet& billet, int column) : billet_(billet), column_(column) { enter(); }

    int column() const { return column_; }
    void next() {
        ++column_;
        if (column_ % kChunkColumns == 0) enter();
    }
    void read(std::vector<Interval>& out) {
        out.clear();
        const std::size_t k = static_cast<std::size_t>(column_ % kChunkColumns);
        double inner = chunk_->inner->r[k];
        const double outer = chunk_->outer.r[k];
        while (gap_ < chunk_->gaps.size() && chunk_->gaps[gap_].column < k) ++gap_;
        if (outer <= inner) return;
        for (std::size_t g = gap_; g < chunk_->gaps.size() && chunk_->gaps[g].column == k; ++g) {
            out.push_back({inner, chunk_->gaps[g].lo, 0, 0});
            inner = chunk_->gaps[g].hi;
        }
        out.push_back({inner, outer, 0, 0});
    }

private:
    void enter() {
        chunk_ = &billet_.chunk(std::min(column_ / kChunkColumns, billet_.grid().chunks() - 1));
        gap_ = 0;
    }
    const Billet& billet_;
    int column_;
    const Chunk* chunk_ = nullptr;
    std::size_t gap_ = 0;
};

}  // namespace

SlabCutter::Reach SlabCutter::reachIn(int chunk) const {
    const int base = chunk * kChunkColumns;
    Reach reach;
    reach.chunk = chunk;
    reach.ka = std::max(profile_->firstColumn - base, 0);
    reach.kb = std::min(profile_->lastColumn - base, kChunkColumns - 1);
    reach.za = seen_->grid().z(base + reach.ka);
    reach.zb = seen_->grid().z(base + reach.kb);
    return reach;
}

// Too far out everywhere, or too far in everywhere?
bool SlabCutter::slabMissed(int slab, int firstColumn, int lastColumn) const {
    const double maxOuter = seen_->slabMaxOuter(slab);
    if (maxOuter <= 0) return true;
    const double za = seen_->grid().z(firstColumn);
    const double zb = seen_->grid().z(lastColumn);
    const double lowest = profile_->lowerBound.floor(za, zb);
    if (lowest >= maxOuter) return true;
    const double minInner = seen_->slabMinInner(slab);
    if (minInner <= 0) return false;
    const double highest = -profile_->upperBound.floor(za, zb);
    return atCentreHeight(std::max(highest, -lowest), profile_->centreHeight) <= minInner;
}

// Least lo over the chunk for a straight sweep: convex, so it is at the bottom of the sweep or at the nearer end. Where
// the sweep does not reach that end, the bound has to do.
double SlabCutter::leastLower(const Reach& reach) const {
    if (reach.za <= profile_->bottomTo && reach.zb >= profile_->bottomFrom) return profile_->lowerBound.level;
    const double z = reach.za > profile_->bottomTo ? reach.za : reach.zb;
    const double r = sideAt(branches_ + profile_->lower.begin, branches_ + profile_->lower.end, z);
    return r < kInf ? r : profile_->lowerBound.floor(reach.za, reach.zb);
}

bool SlabCutter::misses(Reach& reach, const ChunkBounds& bounds) const {
    if (bounds.maxOuter <= 0) return true;
    double lowest = profile_->lowerBound.floor(reach.za, reach.zb);
    if (lowest >= bounds.maxOuter) return true;
    if (profile_->straight) {
        lowest = leastLower(reach);
        if (lowest >= bounds.maxOuter) return true;
    }
    reach.lowest = lowest;
    if (bounds.minInner <= 0) return false;
    const double highest = -profile_->upperBound.floor(reach.za, reach.zb);
    return atCentreHeight(std::max(highest, -lowest), profile_->centreHeight) <= bounds.minInner;
}

void SlabCutter::fillSide(double* r, int chunk, BranchSpan span) const {
    const Grid& grid = seen_->grid();
    const int base = chunk * kChunkColumns;
    const kernel::Place place{grid.z0, grid.pitch, static_cast<double>(base)};
    const double border = grid.border(base);
    const double end = grid.border(base + kChunkColumns);
    bool filled = false;
    for (std::uint32_t i = span.begin; i < span.end; ++i) {
        const Branch& branch = branches_[i];
        if (branch.zTo < border || branch.zFrom > end) continue;
        if (!filled && branch.zFrom <= border && branch.zTo >= end) {
            kernel::setTo(r, place, branch);
            filled = true;
            continue;
        }
        if (!filled) std::fill(r, r + kChunkColumns, kInf);
        filled = true;
        kernel::takeLeast(r, laneFrom(branch.zFrom, border, perMm_), laneTo(branch.zTo, border, perMm_), place, branch);
    }
    if (!filled) std::fill(r, r + kChunkColumns, kInf);
}

// Where the tool only just touches a column (lo = hi, at the utmost point of an outline) it takes nothing, and must not
// pass for a cut that reaches down to the axis or out to the skin.
void SlabCutter::fillUpper(int chunk) {
    fillSide(hi_, chunk, profile_->upper);
    turnUpper();
}

void SlabCutter::turnUpper() {
    for (int k = 0; k < kChunkColumns; ++k) {
        const bool meets = lo_[k] < -hi_[k];
        hi_[k] = meets ? -hi_[k] : -kInf;
        lo_[k] = meets ? lo_[k] : kInf;
    }
}

// A straight sweep's upper side is concave, so it is nowhere lower than at the ends of a span.
bool SlabCutter::reachesOverOuter(const Reach& reach, double maxOuter) const {
    if (!profile_->straight) return false;
    const Branch* begin = branches_ + profile_->upper.begin;
    const Branch* end = branches_ + profile_->upper.end;
    return -sideAt(begin, end, reach.za) >= maxOuter && -sideAt(begin, end, reach.zb) >= maxOuter;
}

// From x, across the axis and at the height of the edge, to the radius that the turning bar sees.
void SlabCutter::fold() {
    const double height = profile_->centreHeight;
    for (int k = 0; k < kChunkColumns; ++k) {
        const double lo = lo_[k];
        const double hi = hi_[k];
        if (lo > hi) {
            lo_[k] = kInf;
            hi_[k] = -kInf;
            continue;
        }
        const double least = hi < 0 ? -hi : std::max(lo, 0.0);
        const double most = std::max(hi, -lo);
        lo_[k] = atCentreHeight(least, height);
        hi_[k] = atCentreHeight(most, height);
    }
}

bool SlabCutter::cut(Billet& billet, int slab, const SweepProfile& profile, const SweepParts& parts, CutSum& sum) {
    billet_ = &billet;
    seen_ = &billet;
    profile_ = &profile;
    branches_ = parts.branches;
    run_ = profile.stamps < 0 ? nullptr : parts.stamps + profile.stamps;
    cut_ = mayHaveLoosened_ = firstColumnCut_ = lastColumnCut_ = false;
    leans_ = billet.slabLeans(slab);
    perMm_ = 1 / seen_->grid().pitch;
    firstChunk_ = slab * kSlabChunks;
    endChunk_ = std::min(firstChunk_ + kSlabChunks, billet.grid().chunks());
    const int firstColumn = std::max(profile.firstColumn, firstChunk_ * kChunkColumns);
    const int lastColumn = std::min(profile.lastColumn, endChunk_ * kChunkColumns - 1);
    if (firstColumn > lastColumn || slabMissed(slab, firstColumn, lastColumn)) return false;
    for (int chunk = firstColumn / kChunkColumns; chunk <= lastColumn / kChunkColumns; ++chunk) {
        Reach reach = reachIn(chunk);
        if (misses(reach, billet.bounds(chunk))) continue;
        if (run_) {
            stampChunk(reach, sum);
        } else {
            cutChunk(reach, sum);
        }
    }
    if (!cut_) return false;
    if (run_) return true;
    billet.boundSlab(slab);
    if (leans_) {
        const SlabHold hold = holdOf(billet, slab);
        billet.setSlabLeans(slab, hold.leans);
        mayHaveLoosened_ = !hold.together;
    }
    return true;
}

void SlabCutter::cutChunk(const Reach& reach, CutSum& sum) {
    ++chunksVisited_;
    const Taken taken = cutEnvelope(reach);
    if (!taken.any()) return;
    Taken metal = taken;
    if (!billet_->isRound(reach.chunk)) {
        if (!bothSides_) fillUpper(reach.chunk);
        metal = cutSectors(reach.chunk);
    }
    note(reach.chunk, metal.area, metal.deepest, metal.column, sum);
    afterChange(reach.chunk, taken.firstChanged, taken.lastChanged);
    if (billet_->joinSectors(reach.chunk)) afterChange(reach.chunk, 0, kChunkColumns - 1);
}

SlabCutter::Taken SlabCutter::cutEnvelope(const Reach& reach) {
    ChunkBounds bounds = billet_->bounds(reach.chunk);
    std::shared_ptr<Chunk>& ref = billet_->chunkRef(reach.chunk);
    fillSide(lo_, reach.chunk, profile_->lower);
    bothSides_ = false;
    const bool folds = reach.lowest < 0 || profile_->centreHeight != 0;
    Taken taken;
    const bool missed = !folds && !kernel::anyLess(lo_, ref->outer.r.data());
    if (missed) return taken;
    if (!folds && !bounds.hasGaps && reach.lowest > bounds.maxInner && reachesOverOuter(reach, bounds.maxOuter)) {
        taken = lower(ref, bounds);
    } else {
        fillUpper(reach.chunk);
        if (folds) fold();
        bothSides_ = true;
        taken = take(ref, bounds);
    }
    if (taken.any()) billet_->setBounds(reach.chunk, bounds);
    return taken;
}

// Returns the area taken, on the average of the sectors, and the depth in the sector where it is greatest: the envelope
// still has crests that a thread has taken down, and nothing is cut there.
SlabCutter::Taken SlabCutter::cutSectors(int chunk) {
    Sectors& sectors = billet_->ownSectors(chunk);
    chunksVisited_ += sectors.kinds.size();
    Taken all;
    for (std::size_t k = 0; k < sectors.kinds.size(); ++k) {
        const Taken taken = take(sectors.kinds[k], sectors.bounds[k]);
        all.area += taken.area * sectors.users[k];
        if (taken.deepest <= all.deepest) continue;
        all.deepest = taken.deepest;
        all.column = taken.column;
    }
    all.area /= billet_->sectors();
    return all;
}

// A side of the outline standing at `at`; `sign` -1 for the mirrored side.
void SlabCutter::fillStamp(double* r, int chunk, const std::vector<Branch>& side, Point at, double sign) const {
    const Grid& grid = seen_->grid();
    const int base = chunk * kChunkColumns;
    const kernel::Place place{grid.z0, grid.pitch, static_cast<double>(base)};
    const double border = grid.border(base);
    const double end = grid.border(base + kChunkColumns);
    bool filled = false;
    for (const Branch& standing : side) {
        Branch branch = standing;
        branch.zFrom += at.z;
        branch.zTo += at.z;
        if (branch.zTo < border || branch.zFrom > end) continue;
        branch.a += sign * at.r;
        branch.c += at.z;
        if (branch.zFrom <= border && branch.zTo >= end) {
            kernel::setTo(r, place, branch);
            return;
        }
        if (!filled) std::fill(r, r + kChunkColumns, kInf);
        filled = true;
        kernel::takeLeast(r, laneFrom(branch.zFrom, border, perMm_), laneTo(branch.zTo, border, perMm_), place, branch);
    }
    if (!filled) std::fill(r, r + kChunkColumns, kInf);
}

void SlabCutter::stampChunk(const Reach& reach, CutSum& sum) {
    const double from = reach.za - run_->zMax;
    const double to = reach.zb - run_->zMin;
    chunksVisited_ += static_cast<std::uint64_t>(billet_->sectors()) / kStampsForOneVisit;
    double area = 0;
    for (int sector = 0; sector < billet_->sectors(); ++sector) {
        const Point* first = run_->places.data() + run_->begin[static_cast<std::size_t>(sector)];
        const Point* last = run_->places.data() + run_->begin[static_cast<std::size_t>(sector) + 1];
        const bool rising = run_->rising;
        first = std::partition_point(first, last, [&](const Point& p) { return rising ? p.z < from : p.z > to; });
        last = std::partition_point(first, last, [&](const Point& p) { return rising ? p.z <= to : p.z >= from; });
        for (const Point* at = first; at != last; ++at) area += stamp(reach.chunk, sector, *at);
    }
    sum.area += area / billet_->sectors();
}

// Returns the area taken from the sector.
double SlabCutter::stamp(int index, int sector, Point at) {
    const ChunkBounds& bounds = billet_->bounds(index, sector);
    const double lowest = at.r + run_->bottom;
    if (lowest >= bounds.maxOuter) return 0;
    fillStamp(lo_, index, run_->lower, at, 1);
    const bool folds = lowest < 0 || profile_->centreHeight != 0;
    const Chunk& chunk = billet_->chunk(index, sector);
    if (!folds && !kernel::anyLess(lo_, chunk.outer.r.data())) return 0;
    const bool lowers =
        !folds && !bounds.hasGaps && lowest > bounds.maxInner && at.r + run_->leastTop >= bounds.maxOuter;
    if (!lowers) {
        fillStamp(hi_, index, run_->upper, at, -1);
        turnUpper();
        if (folds) fold();
        if (!takesFrom(chunk, bounds)) return 0;
    }
    cut_ = true;
    Sectors& sectors = billet_->ownSectors(index);
    const std::size_t kind = sectors.alone(sector);
    std::shared_ptr<Chunk>& ref = sectors.kinds[kind];
    return (lowers ? lower(ref, sectors.bounds[kind]) : take(ref, sectors.bounds[kind])).area;
}

bool SlabCutter::takesFrom(const Chunk& chunk, const ChunkBounds& bounds) const {
    if (bounds.maxOuter <= 0) return false;
    for (std::size_t k = 0; k < kChunkColumns; ++k) {
        if (lo_[k] < hi_[k] && lo_[k] < chunk.outer.r[k] && hi_[k] > chunk.inner->r[k]) return true;
    }
    return false;
}

void SlabCutter::note(int chunk, double area, double depth, int column, CutSum& sum) const {
    sum.area += area;
    if (depth <= sum.deepestMm) return;
    sum.deepestMm = depth;
    sum.atZ = seen_->grid().z(chunk * kChunkColumns + column);
}

SlabCutter::Taken SlabCutter::lower(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds) {
    Chunk& chunk = soleOwner(ref);
    const double first = chunk.outer.r.front();
    const double last = chunk.outer.r.back();
    const kernel::Loss loss = kernel::lowerOuter(chunk.outer.r.data(), chunk.outer.cut.data(), lo_, profile_->cut);
    bounds.minOuter = loss.minR;
    bounds.maxOuter = loss.maxR;
    return {loss.area, loss.deepest, loss.column, chunk.outer.r.front() != first ? 0 : 1,
            kChunkColumns - (chunk.outer.r.back() != last ? 1 : 2)};
}

SlabCutter::Taken SlabCutter::raise(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds) {
    Surface& inner = soleOwner(soleOwner(ref).inner);
    const double first = inner.r.front();
    const double last = inner.r.back();
    const kernel::Loss loss = kernel::raiseInner(inner.r.data(), inner.cut.data(), hi_, profile_->cut);
    bounds.minInner = loss.minR;
    bounds.maxInner = loss.maxR;
    return {loss.area, loss.deepest, loss.column, inner.r.front() != first ? 0 : 1,
            kChunkColumns - (inner.r.back() != last ? 1 : 2)};
}

SlabCutter::Taken SlabCutter::split(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds) {
    const ChunkLoss loss = splitter_.split(ref, {lo_, hi_}, profile_->cut);
    if (loss.lastChanged >= 0) bounds = measured(*ref);
    return {loss.area, loss.deepest, loss.deepestColumn, loss.firstChanged, loss.lastChanged};
}

SlabCutter::Taken SlabCutter::take(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds) {
    if (!bounds.hasGaps) {
        const double* outer = ref->outer.r.data();
        const double* inner = ref->inner->r.data();
        if (kernel::onlyLowers(outer, inner, lo_, hi_)) {
            return kernel::anyLess(lo_, outer) ? lower(ref, bounds) : Taken{};
        }
        if (kernel::onlyRaises(outer, inner, lo_, hi_)) {
            return kernel::anyLess(inner, hi_) ? raise(ref, bounds) : Taken{};
        }
    }
    return split(ref, bounds);
}

// Notes what a changed chunk means for its neighbours: for those in other slabs, that their common border changed;
// within the slab, whether something may have lost its hold. Where all columns share a radius nothing can have.
void SlabCutter::afterChange(int chunk, int firstChanged, int lastChanged) {
    cut_ = true;
    const bool first = firstChanged == 0;
    const bool last = lastChanged == kChunkColumns - 1;
    if (chunk == firstChunk_ && first) firstColumnCut_ = true;
    if (chunk == endChunk_ - 1 && last) lastColumnCut_ = true;
    const int base = chunk * kChunkColumns;
    if (!shareARadius(chunk, chunk)) {
        checkHold(base + firstChanged, base + lastChanged + 1);
        return;
    }
    if (first && chunk > firstChunk_ && !shareARadius(chunk - 1, chunk)) checkHold(base, base);
    if (last && chunk + 1 < endChunk_ && !shareARadius(chunk, chunk + 1)) {
        checkHold(base + kChunkColumns, base + kChunkColumns);
    }
}

bool SlabCutter::shareARadius(int chunkA, int chunkB) const {
    const ChunkBounds& a = billet_->bounds(chunkA);
    const ChunkBounds& b = billet_->bounds(chunkB);
    if (a.hasGaps || b.hasGaps) return false;
    return std::min(a.minOuter, b.minOuter) - std::max(a.maxInner, b.maxInner) > kHoldMm;
}

// Does every stretch of these columns, within the slab, still overlap one of the column to its left? If all of them
// always do, everything hangs together with the first column. If not, the slab is looked at as a whole after every cut
// from then on: see hold.h.
void SlabCutter::checkHold(int firstColumn, int lastColumn) {
    if (leans_) return;
    const int first = std::max(firstColumn, firstChunk_ * kChunkColumns + 1);
    const int last = std::min({lastColumn, endChunk_ * kChunkColumns - 1, billet_->grid().columns - 1});
    if (first > last) return;
    ColumnWalk walk(*billet_, first - 1);
    walk.read(left_);
    while (walk.column() < last) {
        walk.next();
        walk.read(solids_);
        std::size_t j = 0;
        for (const Interval& solid : solids_) {
            while (j < left_.size() && left_[j].outer <= solid.inner) ++j;
            bool held = false;
            for (std::size_t i = j; i < left_.size() && left_[i].inner < solid.outer && !held; ++i) {
                held = holds(left_[i], solid);
            }
            if (!held) {
                leans_ = true;
                return;
            }
        }
        std::swap(left_, solids_);
    }
}

CutSum SlabCutter::touch(const Billet& billet, int slab, const SweepProfile& profile, const SweepParts& parts, Of of) {
    seen_ = &billet;
    profile_ = &profile;
    branches_ = parts.branches;
    perMm_ = 1 / seen_->grid().pitch;
    firstChunk_ = slab * kSlabChunks;
    endChunk_ = std::min(firstChunk_ + kSlabChunks, billet.grid().chunks());
    const int firstColumn = std::max(profile.firstColumn, firstChunk_ * kChunkColumns);
    const int lastColumn = std::min(profile.lastColumn, endChunk_ * kChunkColumns - 1);
    if (firstColumn > lastColumn || slabMissed(slab, firstColumn, lastColumn)) return {};
    CutSum sum;
    for (int chunk = firstColumn / kChunkColumns; chunk <= lastColumn / kChunkColumns; ++chunk) {
        Reach reach = reachIn(chunk);
        if (!misses(reach, billet.bounds(chunk))) touchChunk(reach, of, sum);
    }
    return sum;
}

double SlabCutter::depthInSolids(std::size_t k) const {
    double depth = 0;
    for (const Interval& solid : solids_) {
        depth += std::max(0.0, std::min(hi_[k], solid.outer) - std::max(lo_[k], solid.inner));
    }
    return depth;
}

void SlabCutter::touchChunk(const Reach& reach, Of of, CutSum& sum) {
    fillSide(lo_, reach.chunk, profile_->lower);
    fillUpper(reach.chunk);
    fold();
    const Sectors* sectors = of == Of::Metal ? seen_->sectorsRef(reach.chunk).get() : nullptr;
    ColumnWalk walk(*seen_, reach.chunk * kChunkColumns);
    for (int k = 0; k < kChunkColumns; ++k, walk.next()) {
        if (lo_[k] >= hi_[k]) continue;
        walk.read(solids_);
        const auto column = static_cast<std::size_t>(k);
        double depth = depthInSolids(column);
        if (sectors != nullptr && depth > 0) {
            depth = 0;
            for (const std::shared_ptr<Chunk>& kind : sectors->kinds) {
                readColumn(*kind, column, solids_);
                depth = std::max(depth, depthInSolids(column));
            }
        }
        note(reach.chunk, 0, depth, k, sum);
    }
}

}  // namespace firstoff
