// What the sizes of the part come to, over the picture: numbers at their places, the drawn outline where the part does
// not meet it, and what the colours mean.
#pragma once

#include <vector>

#include "gui/scene_marks.h"

namespace firstoff::gui {

// Where balloons stand beside what they number, so that none lies on another; plain arithmetic, pixels.
struct BalloonPlace {
    ImVec2 at;            // that it numbers
    float width = 0;      // of its words, with the ring
    bool above = true;    // where it stands if there is room
    ImVec2 corner{0, 0};  // upper left, set by placeBalloons
    bool placed = false;  // false: there was no room
};
void placeBalloons(std::vector<BalloonPlace>& balloons, const Rect& room, float height, float away);

// `shift`: how far off the gauged piece is drawn; `instant` that the picture shows.
void drawSizeMarks(const PaneContext& context, const SceneView& view, const Trial& trial, SpacePoint shift,
                   bool hovered);

}  // namespace firstoff::gui
