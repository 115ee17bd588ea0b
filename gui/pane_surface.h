// Where the panes are painted: straight into what is shown, or, where OpenGL runs on the processor, into a picture that
// is kept from frame to frame, so that only what changed is painted.
#pragma once

#include <memory>
#include <optional>

#include "gui/colour.h"
#include "gui/gl/framebuffer.h"
#include "gui/gl/pixel_copy.h"
#include "gui/repaint_plan.h"
#include "gui/shown_picture.h"

namespace firstoff::gui {

class PaneSurface {
public:
    // Draws what the drawing library rendered for this frame over `ground`, and leaves it in the framebuffer that is
    // bound for drawing. A context must be current, always the same.
    void paint(Colour ground, const ShownPicture& picture);
    // The type was loaded anew.
    void forget() { plan_.forget(); }

private:
    void paintPicture(ImDrawData& data, ImTextureID texture);

    RepaintPlan plan_;
    std::unique_ptr<PixelCopy> copy_;
    Framebuffer kept_;
    std::optional<bool> keeps_;
    std::optional<Colour> ground_;  // of what is kept
};

}  // namespace firstoff::gui
