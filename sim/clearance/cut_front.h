// How near a holder comes to the metal that its own edge is about to take off.
//
// Along a straight move in the direction u, metal that a convex edge T will still take lies in front of T: it is
// reached by following u from somewhere on the front of T (where the outward normal and u point the same way). Seen
// from the tool this region does not change with the way, so the holder keeps the same distance from it all along. Only
// the part of it at the lateral places (across u) where there is metal at all counts.
#pragma once

#include "sim/base/outline.h"
#include "sim/clearance/approach.h"

namespace firstoff {

class Billet;

// mm; never above the true gap between `holder` and the metal that `edge` takes off on the straight way of the tip from
// `from` to `to`. `before`: the billet at its start. Infinity where there is none. Both outlines in the tool frame.
double gapToCutFront(const Billet& before, const Outline& edge, const Outline& holder, Point from, Point to);

}  // namespace firstoff
