// Cameras for the views that have names.
#pragma once

#include <vector>

#include "gui/scene/camera.h"
#include "sim/base/space.h"
#include "sim/setup/setup.h"

namespace firstoff::gui {

// `tip`: of the tool at work, lathe frame. `aside`: how far along the spindle loose pieces are set off, mm; 0 without
// any. ViewName::Machine shows the workholding and the work; see wholeMachineView().
Camera namedView(ViewName name, const Setup& setup, Point tip, float aside, float aspect);

// A place where bodies touch or come near, seen as the operator would if he leaned in.
Camera placeView(SpacePoint place, const Setup& setup, float aspect);

// All of the machine, of which these are corners.
Camera wholeMachineView(const std::vector<glm::vec3>& corners, float aspect);

}  // namespace firstoff::gui
