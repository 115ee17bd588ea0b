// Two trials side by side in words: what moved on the part, in sizes, time, load and findings.
#pragma once

#include <string>

#include "sim/base/units.h"
#include "sim/trial/comparison.h"

namespace firstoff {

// For the terminal. `before` and `after` are the trials that `comparison` is of.
std::string comparisonReport(const Trial& before, const Trial& after, const Comparison& comparison);

// "outside Z-20.000 to Z0.000: 0.1000 mm smaller in diameter (line 5)", work coordinates of the after trial.
std::string surfaceChangeInWords(const Trial& after, const SurfaceChange& change, const LengthUnit& unit = {});

// "+1.2 s (2.4 %)", "the same".
std::string timeChangeInWords(double beforeS, double afterS);

}  // namespace firstoff
