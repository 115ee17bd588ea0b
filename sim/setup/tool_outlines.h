// The outlines of the kinds of tool, each from its own dimensions; tool frame. Inside sim/setup only.
#pragma once

#include <optional>
#include <vector>

#include "sim/setup/setup.h"

namespace firstoff {

// Turning and boring; insert_outline.cpp.
Outline insertOutline(const Tool& tool);
// The longest wiper flat that fits an insert, mm; 0 where neither flat has a place.
double largestWiperFlatMm(const Tool& tool);
// Which wiper flats an insert can have as it is mounted.
bool hasTurningWiper(const Tool& tool);  // along Z
bool hasFacingWiper(const Tool& tool);   // along X

// Grooving and parting; blade_outline.cpp.
Outline bladeOutline(const Tool& tool);
// Largest second corner radius beside a first one, mm; below zero where the first does not fit.
double roomForSecondCornerMm(const Tool& tool, double firstRadius);

// Threading; thread_outline.cpp.
Outline threadOutline(const Tool& tool);
std::optional<Outline> threadCrestOutline(const Tool& tool);  // full profiles

// Drills, reamers, taps; axial_outline.cpp.
Outline axialOutline(const Tool& tool);
std::vector<Outline> axialSteps(const Tool& tool);
// Where a step has grown to its full radius, mm behind the point.
double endOfStep(const DrillStep& step, double radiusBefore);

}  // namespace firstoff
