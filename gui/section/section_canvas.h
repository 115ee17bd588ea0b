// One frame's drawing surface of the half-section, for the files that draw into it.
#pragma once

#include "gui/section/section_pane.h"
#include "gui/section/section_pen.h"

namespace firstoff::gui {

inline constexpr float kMargin = 46, kRuler = 18, kButtonsHigh = 40;
inline constexpr float kWide = 1.7f, kNarrow = 1.0f;
inline constexpr float kHatch = 7;       // px between hatch lines
inline constexpr double kChordPx = 0.2;  // arcs as chords: below what an eye sees
inline constexpr double kRescale = 1.6;  // chords are made anew when the scale has changed by so much
inline constexpr float kCornerPx = 8, kFeaturePx = 12;
inline constexpr std::size_t kMostPath = 6000;  // timed moves

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
