// The gauged part with the numbers of its dimensions: upper half seen from outside, lower half cut open. Inside
// sim/output/sheets only.
#pragma once

#include <vector>

#include "sim/output/sheets/sketch.h"
#include "sim/trial/trial.h"

namespace firstoff {

// The piece that was gauged; where none was, the first one that was cut off, or what is held.
int inspectedPiece(const Trial& trial);

// As many drawings as it takes to give every dimension a balloon; none where there is no part.
std::vector<Sketch> inspectionSketches(const Trial& trial, double widthMm);

}  // namespace firstoff
