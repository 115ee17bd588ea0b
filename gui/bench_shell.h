// How fast the application draws, without a display.
#pragma once

#include <string>

#include "gui/startup.h"

namespace firstoff::gui {

// Plays `startup.benchFrames` frames over the whole cycle at each level of quality, or at the one asked for, as fast as
// they can be drawn, and prints how long they took; then drags the time of a job of `startup.benchMoves` moves while it
// plays, and prints how long it takes from a movement of the mouse to the frame that shows it. Throws GraphicsError.
void runBench(const Startup& startup);

// A job of about so many moves at feed, as text: long passes of short stretches on a bar of 50 mm.
std::string manyMovesProgram(int moves);

}  // namespace firstoff::gui
