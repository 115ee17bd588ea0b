// Questions about a program whose answers come from its trial, for hand-outs. Inside sim/output/sheets and its tests
// only.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

struct Exercise {
    enum class Kind : std::uint8_t {
        SpindleSpeed,   // under surface speed, where a cut begins
        ClampHolds,     // the diameter from which the clamp holds the spindle
        FeedPerMinute,  // what the feed for each revolution comes to
        PassesOfCycle,  // how many, and how deep the last
        DepthOfPass,    // of a thread
        EndOfBlock,     // where the tip stands, in X and Z
        WhatSetIt,      // which line set the feed
    };
    Kind kind = Kind::SpindleSpeed;
    BlockId block = kNoBlock;  // that is asked about
    std::string question;
    std::string answer;  // with the working where there is one
    // Figures of both by name with the unit in it, e.g. {"diameter_mm", 54}: what the answer was reckoned from, and
    // last what was asked for.
    std::vector<std::pair<std::string, double>> values;
};

// In the order of the program, a few of each kind. What the trial does not tell for certain is not asked.
std::vector<Exercise> exercisesOf(const Trial& trial);

}  // namespace firstoff
