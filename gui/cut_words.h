// Loads in words and figures.
#pragma once

#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff::gui {

// One figure a line, for a tip. Forces are left out where the material is not known.
std::vector<std::string> loadWords(const Trial& trial, const LoadSample& load);

// "T0101 turning 80 degrees", of a tool call.
std::string callTitle(const Trial& trial, std::uint32_t call);

}  // namespace firstoff::gui
