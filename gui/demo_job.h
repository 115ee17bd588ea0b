// Where the assets lie: the job that is opened when none is asked for, and the lessons.
#pragma once

#include <filesystem>

namespace firstoff::gui {

// Looks in $FIRSTOFF_ASSETS, then in share/firstoff below the prefix under which this program itself lies, then where
// the assets were installed, then in the source tree. Empty if it is in none.
std::filesystem::path demoProgram();

// The folder of the lessons, likewise.
std::filesystem::path lessonShelf();

}  // namespace firstoff::gui
