// Time that a change of the program would save: feed through air, and retracts longer than needed. Inside sim/trial
// only.
#pragma once

#include "sim/cutting/cutting_load.h"
#include "sim/trial/time_account.h"

namespace firstoff {

// What is let pass: a lead-in or lead-out at feed of this length, and a rapid that goes so far away from the blank.
inline constexpr double kLeadInMm = 5;
inline constexpr double kClearOfBlankMm = 10;
// And what is shorter is none that anybody could bring nearer.
inline constexpr double kLeastWayMm = 0.5;

// Fills wastes, and findings with a note for each kind of waste of an operation that costs half a second and a
// hundredth of the cycle. Both limits are our own choice.
void lookForWaste(const Machining& machining, const LoadResult& loads, TimeAccount& account);

}  // namespace firstoff
