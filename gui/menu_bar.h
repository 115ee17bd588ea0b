// The menu, and on its right which program runs on which set-up.
#pragma once

#include "gui/dialogs.h"
#include "gui/pane.h"

namespace firstoff::gui {

// Draws it across the top; returns its height, px. `open`: its first menu drops down, for the keyboard.
float drawMenuBar(const PaneContext& context, Dialogs& dialogs, bool open);

}  // namespace firstoff::gui
