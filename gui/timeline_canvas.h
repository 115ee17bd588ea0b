// One frame's drawing surface of the timeline, for the files that draw its lanes.
#pragma once

#include "gui/timeline_view.h"

namespace firstoff::gui {

struct TimelineView::Canvas {
    const PaneContext& context;
    const Trial& trial;
    const TimelineIndex& index;
    ImDrawList& list;
    Rect pane;
    Rect area;  // ruler and lanes, without the labels
    Rect ruler;
    bool hovered = false;
    bool active = false;

    float x(double px) const { return area.x + static_cast<float>(px); }
    const Palette& palette() const { return context.palette; }
};

}  // namespace firstoff::gui
