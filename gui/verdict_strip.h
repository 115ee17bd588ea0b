// The verdict, and always beside it what it does not replace.
#pragma once

#include "gui/pane.h"

namespace firstoff::gui {

extern const char* const kCaution;

class VerdictStrip {
public:
    // Height it needs at this width, px.
    float height(const PaneContext& context, float width) const;
    void draw(const PaneContext& context, const Rect& rect);
};

}  // namespace firstoff::gui
