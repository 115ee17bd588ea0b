// Loads in words and figures.
#pragma once

#include <string>
#include <vector>

#include "gui/measures.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

// One figure a line, for a tip. Forces are left out where the material is not known.
std::vector<std::string> loadWords(const Trial& trial, const LoadSample& load, Measures measures);

// Shares of the grip beyond this say no more than that it is far too little.
inline constexpr double kMostGripShare = 3;
// What a cut asks of the grip: `share` as HoldingResult::gripShare; and what gives way under it. One figure a line.
std::vector<std::string> gripWords(const Trial& trial, double share);
std::vector<std::string> bendingWords(const BendingSample& bend, Measures measures);

// "T0101 turning 80 degrees", of a tool call.
std::string callTitle(const Trial& trial, std::uint32_t call);

}  // namespace firstoff::gui
