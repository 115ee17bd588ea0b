// One table of the same work done by the billet and by general-purpose libraries in the same run, and how the billet's
// figures grow with the number of moves.
#pragma once

namespace firstoff::bench {

// To standard output. `largest`: moves of the greatest scene of the second part.
void printComparison(unsigned largest);

}  // namespace firstoff::bench
