// What is shipped beside the command.
#pragma once

#include <filesystem>

namespace firstoff::cli {

// The folder "lessons" in $FIRSTOFF_ASSETS, else where the assets were installed, else in the source tree; empty if it
// is in none.
std::filesystem::path shippedLessons();

}  // namespace firstoff::cli
