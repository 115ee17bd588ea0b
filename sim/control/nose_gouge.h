// Where a compensated nose cuts into a stretch of the contour that is not the one it runs along: a groove narrower than
// the nose, a start-up from the wrong quarter, a way back on the side on which it cut.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/control/nose_compensation.h"

namespace firstoff {

struct NoseGouge {
    std::uint32_t tag = 0;      // of the element that the nose runs along
    std::uint32_t intoTag = 0;  // of the element that it cuts into
    // By how much the nose circle reaches over the programmed line, mm. Not more than twice the nose radius is said:
    // farther over, the line is no longer near.
    double depthMm = 0;
    bool switching = false;  // on the move that switches compensation on or off
};

// `path` and `issues` are what compensate() made of the elements. Of overlapping places the deepest is given, in order.
// What is under a touch is none; rapid elements are no contour, and the first and the last element are none to the
// moves that lead on to them and off them.
//
// Seen are all pairs of elements between which the profile runs one way in Z, or one way in X; where it turns round in
// both another pass begins, whose contour lies elsewhere on purpose. Linear but for the pairs that are really near.
std::vector<NoseGouge> noseGouges(const std::vector<PathElement>& elements, const std::vector<PathElement>& path,
                                  const CompensationSetting& setting, bool cancelled,
                                  const std::vector<CompensationIssue>& issues);

}  // namespace firstoff
