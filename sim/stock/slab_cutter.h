// Cuts the profile of one sweep into one slab (a run of chunks) of a billet. Slabs do not touch each other, so that
// workers may cut different slabs of one billet at the same time.
#pragma once

#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/chunk_split.h"
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

class SlabCutter {
public:
    // Takes the sweep out of the slab and adds to `sum`. True if any metal went.
    bool cut(Billet& billet, int slab, const SweepProfile& profile, const Branch* branches, CutSum& sum);

    // About the last cut(): metal was left that does not hang together, within the slab, with metal in its first
    // column, so that it may have come loose; see hold.h.
    bool mayHaveLoosened() const { return mayHaveLoosened_; }
    // The first or the last column of the slab lost metal.
    bool firstColumnCut() const { return firstColumnCut_; }
    bool lastColumnCut() const { return lastColumnCut_; }
    // Chunks looked at closely since this cutter was made: the measure of work done.
    std::uint64_t chunksVisited() const { return chunksVisited_; }

    // How deep, radially, the sweep reaches into the metal of the slab, and where; area 0. Cuts nothing.
    CutSum touch(const Billet& billet, int slab, const SweepProfile& profile, const Branch* branches);

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
    bool reachesOverOuter(const Reach& reach, double maxOuter) const;
    void fold();
    // Taking metal out, each in its quickest way.
    void cutChunk(const Reach& reach, CutSum& sum);
    void lower(int chunk, CutSum& sum);
    void raise(int chunk, CutSum& sum);
    void split(int chunk, CutSum& sum);
    void note(int chunk, double area, double depth, int column, CutSum& sum) const;
    // Whether something may have lost its hold.
    void afterChange(int chunk, int firstChanged, int lastChanged);
    bool shareARadius(int chunkA, int chunkB) const;
    void checkHold(int firstColumn, int lastColumn);
    void touchChunk(const Reach& reach, CutSum& sum);

    // Of the sweep and slab at hand.
    Billet* billet_ = nullptr;
    const Billet* seen_ = nullptr;
    const SweepProfile* profile_ = nullptr;
    const Branch* branches_ = nullptr;
    int firstChunk_ = 0, endChunk_ = 0;
    double perMm_ = 0;  // columns per mm

    alignas(64) double lo_[kChunkColumns];
    alignas(64) double hi_[kChunkColumns];
    bool cut_ = false;
    bool mayHaveLoosened_ = false;
    bool leans_ = false;  // some metal in the slab hangs on from its right
    bool firstColumnCut_ = false, lastColumnCut_ = false;
    std::uint64_t chunksVisited_ = 0;
    ChunkSplitter splitter_;
    std::vector<Interval> solids_, left_;
};

}  // namespace firstoff
