// From a time to what stands where.
#pragma once

#include "gui/scene/lathe_scene.h"
#include "gui/scene/spindle_turn.h"

namespace firstoff::gui {

// Seeks `cursor` (may be null) and says where turret, spindle and tool are at `timeS`, which is held within the cycle.
SceneInstant instantAt(const Trial& trial, StockCursor* cursor, const SpindleTurn& spindle, double timeS);

}  // namespace firstoff::gui
