// The sides of the metal along z, column by column, and how they hang together: a section before it is drawn.
#pragma once

#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/side_tracer.h"

namespace firstoff {

// One side of a solid stretch over neighbouring columns. Where it ends it meets another side, by index, over an upright
// edge that a cut left, or in a point.
struct SideRun {
    Side side = Side::Inner;
    int firstColumn = 0;
    std::vector<double> radii;
    std::vector<CutId> cuts;
    int leftTie = 0, rightTie = 0;
    CutId leftCut = kUncut, rightCut = kUncut;

    int lastColumn() const { return firstColumn + static_cast<int>(radii.size()) - 1; }
};

// All sides in one sector. Loops run along an inner side to the right, over its right tie, along an outer side to the
// left, over its left tie, and so on; every inner side is on one.
std::vector<SideRun> sideRuns(const Billet& billet, int sector = kEnvelope);

}  // namespace firstoff
