// The application drawn once, into a file, without a display.
#pragma once

#include "gui/startup.h"

namespace firstoff::gui {

// Throws GraphicsError without an off-screen OpenGL, and std::runtime_error when the file cannot be written.
// When the finish of a surface is asked for that has none, the latter gives the reason.
void drawPicture(const Startup& startup);

}  // namespace firstoff::gui
