// Machine and tool files that a set-up names, from beside it.
#pragma once

#include <filesystem>

#include "sim/setup/setup.h"

namespace firstoff {

// For readSetup(): gives the files as seen from the folder of `setupFile`; none where that is empty, for a set-up that
// was never saved, and none that is no regular file, cannot be read or is larger than a mebibyte.
ReadSetupFile setupFilesBeside(std::filesystem::path setupFile);

}  // namespace firstoff
