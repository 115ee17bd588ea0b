// What to key in: one amount for each entry of the offset page that suits all dimensions which hang on it.
//
// Notation. x: what is added to an entry; s, l: smallest and largest size to be expected of a dimension, with what the
// other entries add; c: how it moves for each mm of x; m, h: middle of its limits and half their width. It is within
// while  m - h <= s + c x  and  l + c x <= m + h,  an interval of x. The entry may take what lies in the intervals of
// all its dimensions; told is the x for which the greatest of |s + c x - m| / h and |l + c x - m| / h is least. A
// length hangs on the offset of one of its faces and moves with that of the other: entries are gone through in turn
// until nothing changes.
#pragma once

#include <vector>

#include "sim/inspection/gauged_part.h"

namespace firstoff {

// Only entries where something is to be keyed in, or where nothing suits. Where all sizes lie in the middle half of
// their tolerances nothing is. `without` is left empty.
std::vector<OffsetCorrection> correctionsThatSuit(const std::vector<GaugedDimension>& dimensions);

}  // namespace firstoff
