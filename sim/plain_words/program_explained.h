// A whole program told word by word, as text.
#pragma once

#include <optional>
#include <string>

#include "sim/trial/trial.h"

namespace firstoff {

// Every line of the program's own file with its words below it, each with its sentence; of one line alone where `line`
// (from 1) says so.
std::string programExplained(const Trial& trial, std::optional<std::uint32_t> line = {});

}  // namespace firstoff
