// How it is known, slab by slab, that nothing has come loose.
//
// A slab is sound when everything in it hangs together with metal in its first column, and every stretch of that column
// with one of the column to its left, in the slab before. While all slabs are sound, everything hangs on the rear end.
// Nearly all cuts leave even every single stretch overlapping one to its left, which is quick to see. Metal that hangs
// on from its right only (an undercut cut towards the front) makes a slab "lean": it is then looked at as a whole.
#pragma once

#include "sim/stock/billet_columns.h"

namespace firstoff {

// How the metal of one slab hangs together, looked at thoroughly.
struct SlabHold {
    bool together = true;  // everything hangs together, within the slab, with metal in its first column
    bool leans = false;    // but some of it only by what is to its right
};
SlabHold holdOf(const Billet& billet, int slab);

// The first slab that is not sound, or the number of slabs if all are.
int firstUnsoundSlab(const Billet& billet);

}  // namespace firstoff
