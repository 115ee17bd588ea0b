// The image among the panes that may be another in every frame: the picture of the lathe.
#pragma once

#include <imgui.h>

namespace firstoff::gui {

// It stands on whole pixels with one texel to each, is opaque, and nothing lies beneath it.
struct ShownPicture {
    ImTextureID texture = nullptr;  // null: none
    bool fresh = false;             // its pixels are new in this frame
};

}  // namespace firstoff::gui
