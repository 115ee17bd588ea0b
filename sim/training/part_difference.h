// Where a finished part departs from another, as a gauge would meet it: by the distance between the outlines, whichever
// way the surface runs.
#pragma once

#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

// A stretch of outline further away from the other than the tolerance.
struct OutlineDeparture {
    enum class Surface : std::uint8_t { Outside, Bore, Face };
    Surface surface = Surface::Outside;
    double fromZ = 0, toZ = 0;  // work coordinates, fromZ <= toZ
    double fromX = 0, toX = 0;  // as diameter, fromX <= toX
    double mostMm = 0;          // square to the surface: + too much metal, - too little
    double atZ = 0, atX = 0;    // of that, as diameter
    std::string cutBy;          // "line 12" of the part that is judged; empty where nobody cut there
};

struct PartDifference {
    bool compared = false;  // false: one of them has no part
    std::vector<OutlineDeparture> outline;
    std::vector<std::string> threads;  // each in a sentence
    std::vector<std::string> pieces;   // pieces that fell or did not, in a sentence

    bool none() const { return compared && outline.empty() && threads.empty() && pieces.empty(); }
};

// The part is the last piece that the model cuts off, or what it leaves in the chuck where it cuts nothing off.
PartDifference differenceOf(const Trial& made, const Trial& model, double toleranceMm);

// "outside, Z-20.000 to Z-12.500: 0.400 mm too large in diameter, there Ø30.400 instead of Ø30.000 (line 12)"
std::string inWords(const OutlineDeparture& departure);

}  // namespace firstoff
