// The application drawn once, into a file, without a display.
#pragma once

#include "gui/startup.h"

namespace firstoff::gui {

// Throws GraphicsError without an off-screen OpenGL, and std::runtime_error when the file cannot be written.
void drawPicture(const Startup& startup);

}  // namespace firstoff::gui
