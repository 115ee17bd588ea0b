// Gauging a thread on the simulated part, in an axial section, as an optical comparator would.
//
// Notation. h: radius outside, minus the radius inside, so that the groove is where h is low. The span looked at holds
// whole leads. Crest and root are the greatest and the least h in it. At a level h the groove takes the share s(h) of
// the span; the pitch diameter (the simple pitch diameter of ISO 5408: the cylinder where the groove is half the pitch
// wide) lies where s = 1/2. Crossings of a level are found between columns by straight line, so that they do not depend
// on the pitch of the columns.
#pragma once

#include <optional>

#include "sim/stock/billet_columns.h"

namespace firstoff {

struct ThreadFigures {
    double majorMm = 0, pitchMm = 0, minorMm = 0;  // diameters
    double depthMm = 0;                            // radial
    double leadMm = 0;                             // from a groove to the one that the same start leaves a turn later
    double grooves = 0;                            // in a lead; a whole number where the thread is sound
    double flankFront = 0;   // rad, of the flank that looks away from the chuck, against the plane square to the axis
    double flankBack = 0;    // of the one that looks towards the chuck
    double crestFlatMm = 0;  // share of a pitch left at the crest, within 1 µm of its height
};

// The thread outside (or inside) in one sector between two places, lathe frame. Nothing where there is less than one
// whole `leadMm` of it, metal is missing, or no groove. `leadMm` > 0.
std::optional<ThreadFigures> gaugeThread(const Billet& billet, int sector, double zFrom, double zTo, double leadMm,
                                         bool inside);

}  // namespace firstoff
