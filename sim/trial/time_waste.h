// Time that a change of the program would save: feed through air, and retracts longer than needed. Inside sim/trial
// only.
#pragma once

#include "sim/trial/time_account.h"

namespace firstoff {

// What is let pass: a lead-in or lead-out at feed of this length, and a rapid that goes so far away from the blank.
inline constexpr double kLeadInMm = 5;
inline constexpr double kClearOfBlankMm = 10;

// Fills wastes, and findings with one note at most for an operation: where both together save half a second and a
// hundredth of the cycle. Both limits are our own choice.
void lookForWaste(const Machining& machining, TimeAccount& account);

}  // namespace firstoff
