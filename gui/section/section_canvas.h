// One frame's drawing surface of the half-section, for the files that draw into it.
#pragma once

#include "gui/section/section_pane.h"
#include "gui/section/section_pen.h"

namespace firstoff::gui {

inline constexpr float kNarrow = 1.0f;   // lines of the drawing
inline constexpr double kChordPx = 0.2;  // arcs as chords: below what an eye sees

struct SectionPane::Canvas {
    const PaneContext& context;
    ImDrawList& list;
    Rect area;
    bool alone = false;  // the picture of the lathe is not shown
    bool hovered = false;

    const Palette& palette() const { return context.palette; }
    float px(float measure) const { return context.px(measure); }
    Pen pen(Colour colour, float width, LineKind kind = LineKind::Continuous, float alpha = 1) const {
        return {ink(colour, alpha), px(width), kind};
    }
};

}  // namespace firstoff::gui
