// General tolerances of ISO 2768-1, for sizes without a tolerance of their own: f fine, m medium, c coarse, v very
// coarse.
//
// The values of the standard's tables 1 to 3; which of them were read in published extracts and which are from memory
// (coarse below 6 mm, all angles) stands in tests/reference/tolerances.csv.
#pragma once

#include <optional>

namespace firstoff {

// All are to either side of the size. Nothing where the table has no value.
std::optional<double> generalLengthMm(char grade, double sizeMm);      // lengths and diameters, mm
std::optional<double> generalRoundingMm(char grade, double sizeMm);    // radii and heights of chamfers, mm
std::optional<double> generalAngle(char grade, double shorterSideMm);  // rad

}  // namespace firstoff
