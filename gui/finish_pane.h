// The finish of the picked surface, or of the one that the current line leaves: its profile, its figures, and in plain
// words why there are none where there are none.
#pragma once

#include "gui/pane.h"

namespace firstoff::gui {

class FinishPane {
public:
    void draw(const PaneContext& context, const Rect& rect);
};

}  // namespace firstoff::gui
