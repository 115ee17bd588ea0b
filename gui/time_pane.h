// Where the cycle time goes, and what of it could be saved.
#pragma once

#include "gui/page.h"

namespace firstoff::gui {

class TimePane {
public:
    void draw(const PaneContext& context, const Rect& rect);
};

}  // namespace firstoff::gui
