// Where the tool stands and how fast everything runs: large figures, and beneath them what the control holds modally.
#pragma once

#include "gui/pane.h"

namespace firstoff::gui {

class ReadoutPane {
public:
    void draw(const PaneContext& context, const Rect& rect);
    // The same on one line, for small windows.
    void drawStrip(const PaneContext& context, const Rect& rect);
};

}  // namespace firstoff::gui
