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

// What is told of the cut that asks most of the grip, in the same words wherever it stands; empty where it is not
// known.
struct GripFigure {
    std::string label, value, unit;
};
std::vector<GripFigure> gripFigures(const Trial& trial);
// Which cut that is and what was taken for it, one sentence.
std::string gripCutInWords(const Trial& trial);

// Objects of the JSON report. Each says what is `missing` and what was `assumed`; figures that are not known are null.
nlohmann::ordered_json holdingObject(const Trial& trial);
nlohmann::ordered_json bendingObject(const Trial& trial);
nlohmann::ordered_json edgesObject(const Trial& trial);

}  // namespace firstoff
