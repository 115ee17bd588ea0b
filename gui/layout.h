// Where the panes stand. Plain arithmetic, no drawing.
#pragma once

#include "gui/view_settings.h"

namespace firstoff::gui {

struct Rect {
    float x = 0, y = 0, w = 0, h = 0;
    float right() const { return x + w; }
    float bottom() const { return y + h; }
    bool empty() const { return w <= 0 || h <= 0; }
};

// What the layout is made for; lengths in pixels.
struct LayoutSpace {
    float width = 0, height = 0;
    float scale = 1;  // pixels per measure of ViewSettings
    float menuHeight = 0;
    float footHeight = 0;  // verdict and cautions
};

// The picture in the middle, read-outs left of it, program and findings right of it; transport and timeline beneath
// over the full width, the verdict at the foot. A pane without room is folded: its rectangle is empty, or smaller as
// said.
struct Layout {
    Rect readouts;  // a column; a strip of one line above the picture when `readoutsFolded`
    Rect picture;   // empty where the half-section has all of its place
    Rect section;   // empty where it is not shown
    Rect program;   // shares its place with the findings when `findingsFolded`
    Rect findings;  // empty when `findingsFolded`
    Rect transport;
    Rect panel;     // beneath it; empty where it is not shown or has no room
    Rect timeline;  // two lanes at most when `lanesFolded`
    Rect foot;
    bool readoutsFolded = false;
    bool findingsFolded = false;
    bool lanesFolded = false;
    // Splitters; empty where there is nothing to drag.
    Rect besideReadouts, besideProgram, aboveFindings, aboveTimeline, aboveSection;
};

Layout layOut(const LayoutSpace& space, const ViewSettings& view);

// Least and greatest sizes a splitter may be dragged to, for a window of this size; measures of ViewSettings.
ViewSettings boundedSizes(ViewSettings view, const LayoutSpace& space);

}  // namespace firstoff::gui
