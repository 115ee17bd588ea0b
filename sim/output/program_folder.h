// The folder of a program: files beside it that hold programs it calls.
#pragma once

#include <filesystem>

#include "sim/program/program.h"

namespace firstoff {

// Reads what the program calls out of the files beside `programFile`; see sim/program/called_files.h. What fails is a
// finding of the program. Does nothing for a program that was never saved (an empty path).
void readCalledFiles(Program& program, const std::filesystem::path& programFile);

}  // namespace firstoff
