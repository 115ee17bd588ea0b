// The sizes of the simulated part beside what the drawing wants, and which offset brings them to the middle.
#pragma once

#include "gui/page.h"

namespace firstoff::gui {

class SizesPane {
public:
    void draw(const PaneContext& context, const Rect& rect);
};

}  // namespace firstoff::gui
