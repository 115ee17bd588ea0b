// Play, pause, speed, a block forward or back, to the start or the end; and the clock.
#pragma once

#include "gui/pane.h"

namespace firstoff::gui {

class TransportBar {
public:
    void draw(const PaneContext& context, const Rect& rect);
};

}  // namespace firstoff::gui
