// Programs in files beside the program: which ones it calls, and what such files are called.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/program/program.h"

namespace firstoff {

// The number that a file name stands for: O1234, 1234, O1234.nc, 1234.txt, … in capitals or not, with the endings nc,
// txt, tap, cnc, ngc or none. Nothing for other names.
std::optional<std::int32_t> programNumberOfFile(std::string_view name);

// Whether the program calls any program at all, so that its folder need not be looked through in vain.
bool callsPrograms(const Program& program);

// Adds what the program calls with M98, G65 and G66 and does not hold itself, and what that calls in turn. Where a call
// calculates its P, every file with a number for a name is added. `names`: the files of the program's folder, in any
// order; the program's own is not taken. `read` gives the contents of one, or throws std::exception.
// Two files for one number are a finding, and the first by name is taken; a file that cannot be read is one too.
void appendCalledFiles(Program& program, std::vector<std::string> names,
                       const std::function<std::string(const std::string&)>& read);

}  // namespace firstoff
