// The way of cutting a chunk that always works, column by column: a column may lose its outside or its inside, fall
// into two, or go altogether.
#pragma once

#include <vector>

#include "sim/stock/billet_columns.h"

namespace firstoff {

// Radial stretches to take out of the columns of a chunk. Columns that are not met have lo > hi.
struct Stretches {
    const double* lo;
    const double* hi;
};

struct ChunkLoss {
    double area = 0;  // sum of r² differences
    double deepest = 0;
    int deepestColumn = 0;
    int firstChanged = kChunkColumns, lastChanged = -1;  // columns of the chunk; none if last < first
};

// Keeps room for its work from chunk to chunk.
class ChunkSplitter {
public:
    // Surfaces left carry `cut`. Whoever keeps bounds of the chunk measures it afterwards.
    ChunkLoss split(std::shared_ptr<Chunk>& chunk, const Stretches& stretches, CutId cut);

private:
    void splitColumn(int column, double lo, double hi);
    void readColumn(std::size_t column, std::size_t firstGap, std::size_t endGap);
    void writeColumn(std::size_t column);
    void keepGaps(std::size_t firstGap, std::size_t endGap);
    void note(int column, double area, double depth);

    // Of the chunk at hand.
    Chunk* chunk_ = nullptr;
    CutId cut_ = 0;
    std::size_t nextGap_ = 0;  // of the chunk, first of the columns not yet seen
    std::vector<Gap> gaps_;    // of the columns seen, as they are now
    std::vector<Interval> solids_;
    ChunkLoss loss_;
};

}  // namespace firstoff
