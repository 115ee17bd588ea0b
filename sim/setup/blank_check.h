// Whether the blank and what holds it go together.
#pragma once

#include "sim/setup/setup.h"

namespace firstoff {

// Radius of the circle about the spindle axis round a rolled bar: `half` is half its diameter, or half of what it
// measures across its flats.
double circleRound(const Stock& stock, double half);

// Adds what does not go together to the findings: a blank the jaws do not hold, one too thick for chuck or spindle, a
// centre that is not in its end, flats that do not suit the jaws. Nothing for a blank without a radius, which is not
// known yet or not usable.
void checkBlankInChuck(Setup& setup);

}  // namespace firstoff
