// When in a timed move metal comes off. Inside sim/trial only.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/cutting/cutting_load.h"
#include "sim/setup/setup.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

// Stretches of a move at feed along which metal comes off, as parts of its length, 0 to 1, in order; they do not touch.
// From the places at which its load is known: a shoulder is closed in to a thousandth of the way or so and counts as
// metal that far ahead, the ends of a pass of a thread to a hundredth of its way. The whole move where metal came off
// and no load was reckoned.
std::vector<Range> stretchesInMetal(const Machining& machining, const LoadResult& loads, std::uint32_t timed);

// How long that is, s.
double secondsInMetal(const Machining& machining, const LoadResult& loads, std::uint32_t timed);

}  // namespace firstoff
