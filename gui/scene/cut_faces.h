// What shaders are told of the cutaway and of the hatching on its faces.
#pragma once

#include "gui/scene/lathe_scene.h"

namespace firstoff::gui {

// As `uCutaway` has it.
constexpr float cutawayForShaders(Cutaway cutaway) {
    return cutaway == Cutaway::Quarter ? 1.0f : cutaway == Cutaway::Half ? 2.0f : 0.0f;
}

inline constexpr float kHatchPx = 10;  // between the lines of a section, at line scale 1

}  // namespace firstoff::gui
