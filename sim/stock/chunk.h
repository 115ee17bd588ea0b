// Sixty-four neighbouring columns, stored together: what keyframes share and copy.
#pragma once

#include <array>
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

}  // namespace firstoff
