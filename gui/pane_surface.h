// Where the panes are painted: straight into what is shown, or, where OpenGL runs on the processor, into a picture that
// is kept from frame to frame, so that only what changed is painted.
#pragma once

#include <optional>

#include "gui/colour.h"
#include "gui/gl/framebuffer.h"
#include "gui/repaint_plan.h"

namespace firstoff::gui {

class PaneSurface {
public:
    // Draws what the drawing library rendered for this frame over `ground`, and leaves it in the framebuffer that is
    // bound for drawing. `fresh`: images whose pixels are new. A context must be current, always the same.
    void paint(Colour ground, std::span<const ImTextureID> fresh);
    // The type was loaded anew.
    void forget() { plan_.forget(); }

private:
    RepaintPlan plan_;
    Framebuffer kept_;
    std::optional<bool> keeps_;
};

}  // namespace firstoff::gui
