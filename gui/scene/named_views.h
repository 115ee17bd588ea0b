// Cameras for the views that have names.
#pragma once

#include "gui/scene/camera.h"
#include "sim/setup/setup.h"

namespace firstoff::gui {

// `tip`: of the tool at work, lathe frame. `aside`: how far along the spindle loose pieces are set off, mm; 0 without
// any.
Camera namedView(ViewName name, const Setup& setup, Point tip, float aside, float aspect);

}  // namespace firstoff::gui
