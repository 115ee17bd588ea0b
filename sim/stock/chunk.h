// Sixty-four neighbouring columns, stored together: what keyframes share and copy.
#pragma once

#include <array>
#include <atomic>
#include <cstdint>
#include <memory>
#include <vector>

#include "sim/stock/billet.h"
#include "sim/stock/grid.h"

namespace firstoff {

// One side of the columns of a chunk: radius (mm) and the cut that left it there.
struct Surface {
    alignas(64) std::array<double, kChunkColumns> r;
    std::array<CutId, kChunkColumns> cut;
};

// A gap within a column: undercuts, face grooves. A column is the stretch between its inner and outer radius less its
// gaps. `loCut` left the surface at `lo` (an outer surface of the metal below the gap), `hiCut` the one at `hi`.
struct Gap {
    double lo = 0, hi = 0;  // mm, radius
    CutId loCut = kUncut, hiCut = kUncut;
    std::uint32_t column = 0;  // within the chunk
};

// An empty column has inner = outer = 0, and its outer cut is the one that took the last of it.
struct Chunk {
    Surface outer;
    std::shared_ptr<Surface> inner;  // shared between chunks as long as nothing is cut inside
    std::vector<Gap> gaps;           // in order of column, then r

    std::size_t bytes() const { return sizeof(Chunk) + gaps.capacity() * sizeof(Gap); }
};

// Bounds over the columns of a chunk, kept apart from it so that a look at them touches little memory.
struct ChunkBounds {
    double maxOuter = 0, minOuter = 0;
    double minInner = 0, maxInner = 0;
    bool hasGaps = false;
};

ChunkBounds measured(const Chunk& chunk);
// A chunk whose columns are all alike.
std::shared_ptr<Chunk> chunkOf(const std::vector<Interval>& solids);
// The solid stretches of a column of a chunk, from the axis outwards.
void readColumn(const Chunk& chunk, std::size_t column, std::vector<Interval>& out);
// Replaces them; returns the bounds of the chunk afterwards.
ChunkBounds writeColumn(std::shared_ptr<Chunk>& chunk, std::size_t column, const std::vector<Interval>& solids);

// A stretch of the bar that is not round: the chunk as each sector has it. Sectors that look alike share one.
struct Sectors {
    std::vector<std::shared_ptr<Chunk>> kinds;
    std::vector<ChunkBounds> bounds;    // by kind
    std::vector<std::uint16_t> users;   // by kind: how many sectors look like that
    std::vector<std::uint16_t> kindOf;  // by sector

    const Chunk& at(int sector) const { return *kinds[kindOf[static_cast<std::size_t>(sector)]]; }
    // The kind of a sector, which no other sector shares from now on.
    std::size_t alone(int sector);
};

// The value itself if nobody shares it, else a copy that nobody shares. A worker that gave up its share of the value a
// moment ago has finished reading it: the fence makes that so in every memory model.
template <typename T>
T& soleOwner(std::shared_ptr<T>& ref) {
    if (ref.use_count() != 1) ref = std::make_shared<T>(*ref);
#ifndef __SANITIZE_THREAD__  // does not know fences, and finds no race without
    std::atomic_thread_fence(std::memory_order_acquire);
#endif
    return *ref;
}

}  // namespace firstoff
