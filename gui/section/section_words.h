// What is gauged in the half-section, in words.
#pragma once

#include <string>

#include "gui/measures.h"
#include "sim/inspection/feature_gauge.h"

namespace firstoff::gui {

// "Ø 48.000 mm", "X 48.000  Z -44.000 mm", "along Z 0.4724 in", …
std::string readingInWords(const FeatureReading& reading, Measures measures);

}  // namespace firstoff::gui
