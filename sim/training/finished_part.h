// The finished part of a trial, as gauges and marking look at it. Inside sim/training only.
#pragma once

#include <optional>

#include "sim/inspection/part_outline.h"
#include "sim/trial/trial.h"

namespace firstoff {

// The piece that is the part: the one that was gauged against a drawing, else the largest that was cut off, else what
// is held (0).
int pieceOfPart(const Trial& trial);

// Its outline without threads, lathe frame; empty where the trial has no stock or no such piece.
PartOutline finishedOutline(const Trial& trial, int piece);

// Diameter of the outline at z (lathe frame), outside or of the bore; nothing where there is no metal, or no bore.
std::optional<double> diameterAt(const PartOutline& outline, double z, bool inside);

}  // namespace firstoff
