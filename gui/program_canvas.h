// What the parts of the program pane need to draw one frame.
#pragma once

#include "gui/program_pane.h"

namespace firstoff::gui {

struct ProgramPane::Canvas {
    const PaneContext& context;
    ImDrawList& list;
    Rect area;         // margin and text
    float margin = 0;  // width of findings, line numbers and triangles
    float lineHeight = 0;
    float cell = 0;                // width of one character
    std::size_t currentLine = 0;   // 0-based; npos when there is none
    std::size_t geometryLine = 0;  // likewise, inside cycles
    bool hovered = false;
    bool pressed = false;  // the mouse went down here in this frame

    static constexpr std::size_t kNone = static_cast<std::size_t>(-1);
    float textLeft() const { return area.x + margin; }
    double visibleRows() const { return area.h / lineHeight; }
    double visibleCells() const { return (area.w - margin) / cell; }
    const Palette& palette() const { return context.palette; }
    float triangleLeft() const { return textLeft() - context.px(15); }
};

}  // namespace firstoff::gui
