// Whether the part holds, whether it comes out straight, and what it takes of its edges: what the report of a check
// says of that beyond its findings.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "sim/trial/trial.h"

namespace firstoff {

// Lines of a few words each for the terminal, figures and what they rest on; empty where nothing was reckoned (then
// Trial::notChecked says what lacks). Each begins with a label or blanks of 14
// columns; not wrapped.
std::vector<std::string> holdingLines(const Trial& trial);

// Objects of the JSON report. Each says what is `missing` and what was `assumed`; figures that are not known are null.
nlohmann::ordered_json holdingObject(const Trial& trial);
nlohmann::ordered_json bendingObject(const Trial& trial);
nlohmann::ordered_json edgesObject(const Trial& trial);

}  // namespace firstoff
