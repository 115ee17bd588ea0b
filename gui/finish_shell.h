// The close picture of a surface that a line leaves, with what there is to say about it.
#pragma once

#include "gui/app.h"
#include "gui/scene/finish_strip.h"

namespace firstoff::gui {

// The longest surface left by the line that stands on screen. Throws FileError with the reason where it has no finish.
FinishReport finishOnScreen(const App& app);

// The strip into the framebuffer that is bound, and words and scales over it for the drawing library to render; between
// its NewFrame and Render.
void drawFinish(const App& app, const FinishReport& report, FinishPicture& picture, int width, int height, bool bare);

}  // namespace firstoff::gui
