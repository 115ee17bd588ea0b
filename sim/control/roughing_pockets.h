// The passes of the roughing cycles for a profile with pockets (type II). Notation and frame as in roughing.h and
// roughing_levels.h.
//
// Order (common practice, no source; controls differ in it, and all orders leave the same billet for the cut along the
// profile): level after level downwards, and at each level span after span along the profile. A pass goes over one open
// span of the level above:
//
//     level n-1   ────┐                    ┌────      1. to the beginning of the span: at rapid over what stands
//                  1  │\                  ╱│ 4           between, down to e above it, then at feed; at the front of
//     level n         │ ╲_______╱╲______╱  │             the profile as the first profile block leads in;
//                     │  2  3     3   3    │          2. down along the shifted profile to the level;
//                     ═══════════════════════         3. along the level, over lower peaks along the profile, and
//                       shifted profile                  along the level again;
//                                                     4. up along the shifted profile to the level above, then away by
//                                                        e in X and in Z, at 45°.
//
// A span with nothing open at level n is left to the cut along the profile. So no cut is deeper than d, nothing above
// the shifted profile is left higher than d, and every rapid runs where a pass before has cut.
//
// Where the approach S…A' slants, passes begin on it. Where w has moved A' in front of S, they begin above A'.
#pragma once

#include <vector>

#include "sim/control/cycle_path.h"
#include "sim/control/cycle_profile.h"

namespace firstoff {

struct RoughingOrder;

// Writes the passes and the way back to the front, and begins the pass of the cut along the profile. `path` stands at
// the start point. False if there would be too many.
bool writePocketPasses(const std::vector<ProfileElement>& profile, const RoughingOrder& order, CyclePath& path);

}  // namespace firstoff
