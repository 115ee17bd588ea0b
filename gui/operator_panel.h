// What stands on the panel of a machine beside the start button: single block, optional stop, block skip, dry run,
// overrides and feed hold.
//
// Optional stop, block skip, dry run and overrides change what runs: they make another trial, shown with its own
// verdict. Single block and feed hold change how it is watched.
#pragma once

#include <cstdint>

#include "gui/pane.h"

namespace firstoff::gui {

class OperatorPanel {
public:
    void draw(const PaneContext& context, const Rect& rect);
};

// Levels of block skip that the program writes; bit n for /n.
std::uint16_t skipLevelsIn(const Program& program);

}  // namespace firstoff::gui
