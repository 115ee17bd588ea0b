// What is gauged in the half-section, in words.
#pragma once

#include <string>

#include "sim/inspection/feature_gauge.h"

namespace firstoff::gui {

// "Ø 48.000", "X 48.000  Z -44.000", "length 12.000", …
std::string readingInWords(const FeatureReading& reading);

}  // namespace firstoff::gui
