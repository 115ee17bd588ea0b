// The bodies of the machine: which of them the picture shows, and how far apart two of them are.
#pragma once

#include "gui/pane.h"

namespace firstoff::gui {

class BodiesPane {
public:
    void draw(const PaneContext& context, const Rect& rect);

private:
    void drawKinds(const PaneContext& context, const Trial& trial, float width);
    void drawMeasure(const PaneContext& context, const Trial& trial, float width);
    void drawSlot(const PaneContext& context, const Trial& trial, int slot, float width);
};

}  // namespace firstoff::gui
