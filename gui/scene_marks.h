// What stands over the picture: where bodies touch or come near, and what was measured. Each with its figures beside
// it, so that nothing is told by colour alone.
#pragma once

#include "gui/pane.h"
#include "gui/scene/camera.h"
#include "sim/clearance/nearness.h"

namespace firstoff::gui {

// Where the picture stands on screen, and how it is seen.
struct SceneView {
    Rect rect;
    Camera camera;
    int widthPx = 0, heightPx = 0;

    ImVec2 onScreen(SpacePoint place) const;
};

// A ring about the place, and a label with the pair, the gap and the coordinates.
void drawEncounter(const PaneContext& context, const SceneView& view, const Trial& trial, const Encounter& encounter,
                   Point datum);

// The shortest way between two bodies, with its length.
void drawMeasure(const PaneContext& context, const SceneView& view, const Nearness& measured);

}  // namespace firstoff::gui
