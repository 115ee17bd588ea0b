// How time goes on while a trial is played: at the machine's pace or block by block, halted by what halts a machine.
#pragma once

#include <cstddef>
#include <optional>

#include "gui/timeline_index.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

struct TimeSpan {
    double fromS = 0, toS = 0;
    friend bool operator==(const TimeSpan&, const TimeSpan&) = default;
};

struct PlayRules {
    double speed = 1;          // seconds of the cycle per second, or a multiple of the pace by block
    bool byBlock = false;      // every block takes as long to be watched, however short it is
    bool singleBlock = false;  // halts before every block
    std::optional<TimeSpan> loop;
};

struct PlayPlace {
    double timeS = 0;
    std::size_t step = static_cast<std::size_t>(-1);  // which of the steps at this very time; -1: the last
    double share = 0;                                 // by block: how much of the step has been watched
    bool playing = true;
    bool holding = false;  // the feed is to be held: at once, or at the end of a thread pass
};

// Where time stands after `seconds` of watching. Program stops halt it, and the end of the cycle.
PlayPlace played(const Trial& trial, const TimelineIndex& index, PlayPlace place, const PlayRules& rules,
                 double seconds);

// The next step with words, or the number of steps.
std::size_t nextStepWithWords(const Trial& trial, std::size_t step);

// Whether the feed can be held at this time: in a thread pass it goes on to the end of the pass (common practice, no
// source; the manual of the control decides).
bool holdsAtOnce(const Trial& trial, double timeS);

}  // namespace firstoff::gui
