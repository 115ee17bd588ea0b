// Depth and root of threads by their standards, from the pitch. All lengths in mm.
//
// P: pitch. H: height of the triangle in which the flanks meet.
//   - 60°, ISO 68-1 and ISO 965-1: H = 0.866025 P; external depth h3 = 17/24 H = 0.61343 P with a root of H/6 = 0.14434
//   P;
//     internal depth H1 = 5/8 H = 0.54127 P with a root flat of P/8 (rows in tests/reference/threads.csv).
//   - 55°, Whitworth (BS 84, ISO 228-1, from memory): H = 0.960491 P; depth 0.640327 P, root and crest rounded with
//     0.137329 P, inside and outside alike.
//   - 30°, trapezoidal (ISO 2901 and 2904, from memory): depth 0.5 P + ac, root flat 0.366 P - 0.536 ac, ac 0.15 mm for
//     a pitch of 1.5, 0.25 to 5, 0.5 to 12, 1 above.
#pragma once

#include <optional>

namespace firstoff {

struct ThreadBasics {
    double depth = 0;
    double rootRadius = 0;  // one of these two is 0
    double rootFlat = 0;
    double crestFlat = 0;       // what the profile leaves standing between two grooves
    bool roundedCrest = false;  // the standard rounds the crest
};

// Nothing for an angle (rad) that is none of these, or a pitch too small for its root.
std::optional<ThreadBasics> threadBasics(double angle, double pitchMm, bool inside);

}  // namespace firstoff
