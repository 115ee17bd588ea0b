// What a program asks of each tool: for tool lists. Inside sim/output/sheets only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

// From the least to the greatest of some figures.
struct Extent {
    double least = 0, most = 0;
    bool any = false;

    void take(double value);
};

struct ToolUse {
    int station = 0;
    int toolIndex = -1;          // into Setup::tools, -1: the set-up has no tool there
    std::vector<int> offsets;    // in order of their first use
    std::vector<BlockId> calls;  // where the tool is called, each once, in order
    // While it takes metal, or where it never does, while it is fed.
    Extent revPerMin;
    Extent surfaceSpeed;  // m/min as programmed under G96
    Extent clamp;         // rev/min, of G50 S while under G96
    Extent feedPerRev, feedPerMin, lead;
    bool forward = false, reverse = false, stopped = false;  // the spindle, likewise
    bool coolantOn = false, coolantOff = false;              // likewise
    double cuttingS = 0;
    // Way in metal by direction of the feed, mm; arcs by their chords.
    double towardChuck = 0, awayFromChuck = 0, inwards = 0, outwards = 0;
};

// In order of first use; stations that are called and never move are among them.
std::vector<ToolUse> toolUses(const Trial& trial);

// How a tool comes from its index to its first feed.
struct FirstMoves {
    int station = 0, toolIndex = -1;
    BlockId block = kNoBlock;  // of the last rapid before the feed
    Point programmed;          // where that ends, as the program says it, X as radius
    // The closest approach of the edge to the metal on the rapids of the way; infinite where there is none.
    double edgeMm = 0;
    // That of all else; infinite where there is nothing to hit.
    std::size_t nearestMove = 0;
    double gapMm = 0;
    bool known = false;  // all else was looked at
};
// One for each time a tool is taken up and comes to a feed, in order.
std::vector<FirstMoves> firstMoves(const Trial& trial);

// "T3": as tools are named on papers.
std::string toolWord(int station);
// "80° insert, nose R0.8"; what the tool is, in a few words.
std::string toolInWords(const Tool& tool);

}  // namespace firstoff
