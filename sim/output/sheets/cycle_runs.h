// The cycles of a program as they were carried out, pass by pass: for drawings and for questions about them. Inside
// sim/output/sheets and its tests only.
#pragma once

#include <string>
#include <vector>

#include "sim/control/codes.h"
#include "sim/trial/trial.h"

namespace firstoff {

struct CyclePass {
    std::uint32_t first = 0, end = 0;  // moves (index into Toolpath::moves), one past the last
    // Where its first cut ends, as the program counts: work frame, X on radius. Of a threading pass its depth below
    // the crest in mm, 0 where that is not known.
    Point level;
    double threadDepth = 0;
    bool alongProfile = false;  // follows the profile of the cycle
};

// A cycle that one block calls, or that several blocks after one another repeat (G90, G92, G94, drilling).
struct CycleRun {
    BlockId block = kNoBlock;      // that calls it
    BlockId lastBlock = kNoBlock;  // that repeats it last; the same where none does
    Order order = Order::Unknown;
    std::vector<CyclePass> passes;
    int times = 1;  // how often it is carried out; passes are those of the first time

    std::uint32_t firstMove() const { return passes.front().first; }
    std::uint32_t endMove() const { return passes.back().end; }
};

// In the order in which they begin, each block once. A cycle that moved nothing is not among them.
std::vector<CycleRun> cycleRuns(const Trial& trial);

// Whether a move cuts or could: at feed, an arc or a thread.
bool isFed(const Move& move);

// "N140", or "line 14" where the block has no number, "line 2 of O1234.nc" in another file.
std::string blockName(const Program& program, BlockId block);

}  // namespace firstoff
