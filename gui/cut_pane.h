// What the cut asks for at the moment shown, the greatest of each tool, and whether the chuck holds it.
#pragma once

#include "gui/page.h"

namespace firstoff::gui {

class CutPane {
public:
    void draw(const PaneContext& context, const Rect& rect);
};

}  // namespace firstoff::gui
