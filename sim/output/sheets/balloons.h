// Numbered balloons beside a drawing, in a row above or below it, with leaders that do not cross.
//
// Each leader is a short stub square to the row, so that it gets past the other balloons of the row, and from its end,
// the knee, a straight line to the place it names. All knees stand on one line with all places beyond it. Knees are
// given to places in the order along the row; where two lines cross all the same, their balloons change places, which
// makes both together shorter, so that it comes to an end.
#pragma once

#include <cstddef>
#include <vector>

#include "sim/output/sheets/sketch.h"

namespace firstoff {

struct Balloon {
    int number = 0;
    PaperPoint place;   // that it names
    PaperPoint centre;  // set by placeBalloons
    PaperPoint knee;    // likewise
};

inline constexpr double kBalloonPitchMm = 7.4;  // least distance of centres in a row
inline constexpr double kBalloonStubMm = 1.5;   // from the ring to the knee

// How many there is room for in a row from x0 to x1, centres.
std::size_t balloonsInRow(double x0, double x1);

// Sets centres at height y between x0 and x1, as near above or below their places as they can stand, and knees on the
// side of the places. All places must lie beyond the knees on that side (asserted), and no more balloons be given than
// there is room for (asserted).
void placeBalloons(std::vector<Balloon>& balloons, double y, double x0, double x1);

// Leader with its arrow, ring and number.
void addBalloonWithLeader(Sketch& sketch, const Balloon& balloon);

}  // namespace firstoff
