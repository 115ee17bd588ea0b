// Cuts the profile of one sweep into one slab (a run of chunks) of a billet. Slabs do not touch each other, so that
// workers may cut different slabs of one billet at the same time.
#pragma once

#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/chunk_split.h"
#include "sim/stock/stamps.h"
#include "sim/stock/sweep_profile.h"

namespace firstoff {

// What was taken: sum over the columns of the r² differences, and the deepest place.
struct CutSum {
    double area = 0;  // mm²; times pi and the pitch it is a volume
    double deepestMm = 0;
    double atZ = 0;

    void add(const CutSum& other) {
        area += other.area;
        if (other.deepestMm > deepestMm) {
            deepestMm = other.deepestMm;
            atZ = other.atZ;
        }
    }
};

// What the numbers in a profile refer to.
struct SweepParts {
    const Branch* branches = nullptr;
    const StampRun* stamps = nullptr;
};

class SlabCutter {
public:
    // Takes the sweep out of the slab and adds to `sum`. True if any metal went. A stamped sweep adds no depth: how
    // deep it stands in the metal is told by touch().
    bool cut(Billet& billet, int slab, const SweepProfile& profile, const SweepParts& parts, CutSum& sum);

    // About the last cut(): metal was left that does not hang together, within the slab, with metal in its first
    // column, so that it may have come loose; see hold.h.
    bool mayHaveLoosened() const { return mayHaveLoosened_; }
    // The first or the last column of the slab lost metal.
    bool firstColumnCut() const { return firstColumnCut_; }
    bool lastColumnCut() const { return lastColumnCut_; }
    // Chunks looked at closely since this cutter was made: the measure of work done.
    std::uint64_t chunksVisited() const { return chunksVisited_; }

    // How deep, radially, the sweep reaches into the envelope of the slab, or into the metal of any of its sectors, and
    // where; area 0. Cuts nothing.
    enum class Of { Envelope, Metal };
    CutSum touch(const Billet& billet, int slab, const SweepProfile& profile, const SweepParts& parts, Of of);

private:
    struct Reach {  // the columns of a chunk that the sweep may meet
        int chunk, ka, kb;
        double za, zb;
        double lowest;  // lo is nowhere less in the chunk; set by misses()
    };
    // What may be passed over without a close look.
    Reach reachIn(int chunk) const;
    bool slabMissed(int slab, int firstColumn, int lastColumn) const;
    bool misses(Reach& reach, const ChunkBounds& bounds) const;
    double leastLower(const Reach& reach) const;
    // lo and hi of the sweep for the columns of a chunk, into lo_ and hi_.
    void fillSide(double* r, int chunk, BranchSpan span) const;
    void fillUpper(int chunk);
    void turnUpper();  // hi_ from the mirrored side
    bool reachesOverOuter(const Reach& reach, double maxOuter) const;
    void fold();
    void fillStamp(double* r, int chunk, const std::vector<Branch>& side, Point at, double sign) const;
    // Taking metal out of a chunk, each in its quickest way; lo_ and hi_ say what.
    struct Taken {
        double area = 0, deepest = 0;
        int column = 0;  // the deepest
        int firstChanged = kChunkColumns, lastChanged = -1;
        bool any() const { return lastChanged >= 0; }
    };
    Taken lower(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds);
    Taken raise(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds);
    Taken split(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds);
    Taken take(std::shared_ptr<Chunk>& ref, ChunkBounds& bounds);
    void cutChunk(const Reach& reach, CutSum& sum);
    Taken cutEnvelope(const Reach& reach);
    Taken cutSectors(int chunk);
    void stampChunk(const Reach& reach, CutSum& sum);
    double stamp(int index, int sector, Point at);
    bool takesFrom(const Chunk& chunk, const ChunkBounds& bounds) const;
    void note(int chunk, double area, double depth, int column, CutSum& sum) const;
    // Whether something may have lost its hold.
    void afterChange(int chunk, int firstChanged, int lastChanged);
    bool shareARadius(int chunkA, int chunkB) const;
    void checkHold(int firstColumn, int lastColumn);
    void touchChunk(const Reach& reach, Of of, CutSum& sum);
    double depthInSolids(std::size_t k) const;  // of lo_ and hi_ in a column's solids_

    // Of the sweep and slab at hand.
    Billet* billet_ = nullptr;
    const Billet* seen_ = nullptr;
    const SweepProfile* profile_ = nullptr;
    const Branch* branches_ = nullptr;
    const StampRun* run_ = nullptr;
    int firstChunk_ = 0, endChunk_ = 0;
    double perMm_ = 0;  // columns per mm

    alignas(64) double lo_[kChunkColumns];
    alignas(64) double hi_[kChunkColumns];
    bool bothSides_ = false;  // hi_ is filled too
    bool cut_ = false;
    bool mayHaveLoosened_ = false;
    bool leans_ = false;  // some metal in the slab hangs on from its right
    bool firstColumnCut_ = false, lastColumnCut_ = false;
    std::uint64_t chunksVisited_ = 0;
    ChunkSplitter splitter_;
    std::vector<Interval> solids_, left_;
};

}  // namespace firstoff
