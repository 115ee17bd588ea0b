// The application in a window of the desktop.
#pragma once

#include "gui/startup.h"

namespace firstoff::gui {

// Runs until the window is closed. Throws GraphicsError when there is no display or no OpenGL.
void runWindow(const Startup& startup);

}  // namespace firstoff::gui
