// What is no longer joined to the held end of the bar.
#pragma once

#include <vector>

#include "sim/stock/billet_columns.h"

namespace firstoff {

// Metal that hangs together and is joined to the rest by nothing.
struct LoosePiece {
    Billet billet;  // the piece alone, where it was
    double volumeMm3 = 0;
    double thickestMm = 0;  // greatest radial thickness
};

// Takes everything out of `billet` that does not hang together, along z, with metal at z <= `heldZ`, or with the
// rearmost metal where nothing reaches back that far. Pieces come in order of their back ends.
std::vector<LoosePiece> takeLoose(Billet& billet, double heldZ);

}  // namespace firstoff
