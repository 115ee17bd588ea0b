// What to key in, in sentences: the same on the command line, in findings, in the window and on paper.
#pragma once

#include <string>
#include <vector>

#include "sim/inspection/gauged_part.h"

namespace firstoff {

// "Put -0.012 in X of offset 3, added to what stands there: No. 1 and 4 are then within their limits (-0.020 to -0.004
// does it)." Or what cannot be met.
std::string correctionInWords(const GaugedPart& part, const OffsetCorrection& correction);

// What else moves with it: "Moves as well: No. 5, reckoned with; without a dimension Ø48.000 from Z-44.000 to
// Z-60.000." Empty: nothing. `datum`: of the work frame, lathe frame.
std::string alsoMovedInWords(const GaugedPart& part, const OffsetCorrection& correction, Point datum);

// For a dimension by itself: what is to be keyed in for it and what hangs on the same offset, or why nothing is; empty
// where nothing is to be done.
std::string correctionInWords(const GaugedPart& part, const GaugedDimension& dimension);

// "3" "3 and 5" "3, 5 and 6": numbers of dimensions as the papers count them.
std::string numbersInWords(const std::vector<std::size_t>& dimensions);

}  // namespace firstoff
