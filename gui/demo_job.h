// The job that is opened when none is asked for.
#pragma once

#include <filesystem>

namespace firstoff::gui {

// Looks in $FIRSTOFF_ASSETS, then in share/firstoff below the prefix under which this program itself lies, then where
// the assets were installed, then in the source tree. Empty if it is in none.
std::filesystem::path demoProgram();

}  // namespace firstoff::gui
