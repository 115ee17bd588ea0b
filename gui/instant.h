// Everything the panes show about one moment of a trial, gathered once per frame.
#pragma once

#include <cstddef>

#include "gui/timeline_index.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

struct Instant {
    double timeS = 0;
    bool hasMoves = false;  // false: the program moves nothing; only `step` and `block` mean anything

    std::size_t timed = 0;  // index into Timeline::moves
    double fraction = 0;    // of its length
    Point turretReference;  // lathe frame
    Point programmed;       // in the work offset in force, r as radius
    double revPerMin = 0;
    double feedMmPerRev = 0;  // of the running move, after the machine's limit; 0 where it has none
    double feedMmPerMin = 0;
    double turns = 0;  // of the spindle since the start

    std::size_t step = 0;         // index into Toolpath::steps
    BlockId block = kNoBlock;     // of the step, or the call of another file that it belongs to
    BlockId geometry = kNoBlock;  // of the move inside a cycle, else kNoBlock
    int pass = 0;                 // roughing pass, 0 outside cycles
    int nextStation = 0;          // during a turret index the station being swung in, else 0
    const Move* move = nullptr;
    const ModalState* modal = nullptr;
    const ToolCall* call = nullptr;
};

// `step`: which of the steps that start at this very time is meant; steps that take no time share one. Taken as the
// last one when it does not start there.
Instant instantAt(const Trial& trial, const TimelineIndex& index, double timeS, std::size_t step);

}  // namespace firstoff::gui
