// The columns of one billet at one instant. Copies are cheap: chunks are shared until one of the copies cuts them.
//
// Sectors. Round the axis the billet is known at `sectors()` angles, equally spaced from 0, in the order in which they
// pass a tool while the spindle turns forward; the marker of the spindle is at the angle 0. A chunk that is round keeps
// one set of columns for all of them. One that is not keeps, besides those of the sectors, its envelope: what a smooth
// cut all round would leave. The envelope holds all metal that is there, and crests that a thread has taken down
// besides; it is what pieces hang together by and what other bodies keep clear of.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "sim/base/outline.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet.h"
#include "sim/stock/chunk.h"
#include "sim/stock/grid.h"
#include "sim/stock/outline_chains.h"

namespace firstoff {

class LeftOver;
struct SpindleTurns;

// 2 µm, or the least round pitch that keeps a longer bar within 150,000 columns.
double pitchFor(const Stock& stock);

// Metal that hangs on by less than this, radially, is loose. Far above the rounding of doubles at lathe sizes, far
// below anything that holds. Larger: a pip that still holds would fall. Smaller: rounding would hold a piece.
inline constexpr double kNeckMm = 1e-6;

inline bool joined(const Interval& a, const Interval& b) {
    const double outer = a.outer < b.outer ? a.outer : b.outer;
    const double inner = a.inner > b.inner ? a.inner : b.inner;
    return outer - inner > kNeckMm;
}

inline constexpr int kEnvelope = -1;  // in place of a sector
inline constexpr int kThreadSectors = 256;

class Billet {
public:
    // The blank as it is chucked. `pitchMm` 0: pitchFor(stock); `sectors` 0: as many as its shape wants. `left`: what
    // another trial left, for Stock::Shape::Previous; that shape is a plain bar without.
    explicit Billet(const Stock& stock, double pitchMm = 0, int sectors = 0, const LeftOver* left = nullptr);
    // A billet on the same columns with no metal in them.
    static Billet emptyLike(const Billet& other);

    const Grid& grid() const { return grid_; }
    int sectors() const { return sectorCount_; }
    double sectorAngle(int sector) const;  // rad
    bool isRound(int chunk) const { return sectors_[static_cast<std::size_t>(chunk)] == nullptr; }

    // Takes out what the tool sweeps. The surfaces it leaves carry `cut`.
    Removed cut(const Sweep& sweep, const ToolShape& shape, CutId cut);
    // How deep, radially, an outline (tool frame) would get into the metal along a sweep; 0 when it stays clear.
    double deepestTouch(const Sweep& sweep, const Outline& outline) const;
    double deepestTouch(const Sweep& sweep, const ToolShape& shape) const;
    // Takes out what the tool meets once per revolution along a straight sweep, see stamps.h.
    Removed stamp(const Sweep& sweep, const SpindleTurns& turns, const ToolShape& shape, CutId cut);

    double volumeMm3() const;
    // Of every interval and every cut; equal for equal billets whatever way they came about.
    std::uint64_t hash() const;

    // Solid stretches of a column from the axis outwards; none outside the grid. `out` is overwritten.
    void intervals(int column, std::vector<Interval>& out, int sector = kEnvelope) const;
    // Replaces a column of the envelope.
    void setIntervals(int column, const std::vector<Interval>& solids);
    // The cut that took the last of an empty column, kUncut where there never was metal.
    CutId lastCut(int column, int sector = kEnvelope) const;
    // Says so of an empty column; nothing else.
    void setLastCut(int column, CutId cut);

    // --- For those who cut, keep and walk the columns --------------------------------------------------------------
    const Chunk& chunk(int index, int sector = kEnvelope) const {
        const auto i = static_cast<std::size_t>(index);
        return sector < 0 || !sectors_[i] ? *chunks_[i] : sectors_[i]->at(sector);
    }
    const std::shared_ptr<Chunk>& chunkRef(int index) const { return chunks_[static_cast<std::size_t>(index)]; }
    std::shared_ptr<Chunk>& chunkRef(int index) { return chunks_[static_cast<std::size_t>(index)]; }
    // Null where the chunk is round.
    const std::shared_ptr<Sectors>& sectorsRef(int index) const { return sectors_[static_cast<std::size_t>(index)]; }
    std::shared_ptr<Sectors>& sectorsRef(int index) { return sectors_[static_cast<std::size_t>(index)]; }
    // The sectors of a chunk to write to; until now it may have been round.
    Sectors& ownSectors(int index);
    // Sectors in a round, empty chunk that look alike where those of `other` do.
    void takeKinds(const Billet& other, int index);
    // Makes a chunk round again if its sectors all look alike. True if it did.
    bool joinSectors(int index);
    const ChunkBounds& bounds(int index, int sector = kEnvelope) const {
        const auto i = static_cast<std::size_t>(index);
        if (sector < 0 || !sectors_[i]) return bounds_[i];
        return sectors_[i]->bounds[sectors_[i]->kindOf[static_cast<std::size_t>(sector)]];
    }
    double slabMaxOuter(int slab) const { return slabMaxOuter_[static_cast<std::size_t>(slab)]; }
    double slabMinInner(int slab) const { return slabMinInner_[static_cast<std::size_t>(slab)]; }
    // Some metal in the slab may hang on only by what is to its right, see hold.h.
    bool slabLeans(int slab) const { return slabLeans_[static_cast<std::size_t>(slab)] != 0; }
    void setSlabLeans(int slab, bool leans) { slabLeans_[static_cast<std::size_t>(slab)] = leans ? 1 : 0; }
    // A chunk to write to, not shared with anybody. Workers may do this at the same time for different chunks.
    Chunk& ownChunk(int index);
    Surface& ownInner(Chunk& chunk);
    // Whoever changes the bounds of chunks bounds their slab afterwards.
    void setBounds(int index, const ChunkBounds& bounds) { bounds_[static_cast<std::size_t>(index)] = bounds; }
    void measureChunk(int index);  // bounds from scratch
    void boundSlab(int slab);
    // Every column of the chunk is one interval, and neighbours overlap.
    bool isPlain(int index, int sector = kEnvelope) const {
        const ChunkBounds& b = bounds(index, sector);
        return !b.hasGaps && b.minOuter - b.maxInner > kNeckMm;
    }

private:
    Billet() = default;
    void fillFrom(const Stock& stock);
    void fillFrom(const LeftOver& left);
    void fillAlike(const std::vector<std::vector<Interval>>& bySector);
    void clearTail();

    Grid grid_;
    int sectorCount_ = 1;
    std::vector<std::shared_ptr<Chunk>> chunks_;     // round ones, and the envelopes of the others
    std::vector<std::shared_ptr<Sectors>> sectors_;  // null where round
    std::vector<ChunkBounds> bounds_;
    std::vector<double> slabMaxOuter_, slabMinInner_;
    std::vector<unsigned char> slabLeans_;
};

}  // namespace firstoff
