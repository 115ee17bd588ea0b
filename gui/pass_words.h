// A pass of a cycle in a few words and figures.
#pragma once

#include <string>

#include "gui/pass_index.h"

namespace firstoff::gui {

struct PassTold {
    std::string kind;  // "cut", "thread", "way"
    std::string way;   // "X36 Z2 → X36 Z-20": of what it cuts, X as diameter, in the units of the program
    std::string feed;  // "F0.2"; empty at rapid
    double startS = 0, seconds = 0;
};

PassTold tellPass(const Trial& trial, const CyclePass& pass);

}  // namespace firstoff::gui
