// What stands on the panel of a machine beside the start button: single block, optional stop, block skip, dry run,
// overrides and feed hold.
//
// Optional stop, block skip, dry run and overrides change what runs: they make another trial, shown with its own
// verdict. Single block and feed hold change how it is watched.
#pragma once

#include <cstdint>
#include <memory>

#include "gui/pane.h"

namespace firstoff::gui {

class OperatorPanel {
public:
    void draw(const PaneContext& context, const Rect& rect);

private:
    std::uint16_t skipLevelsOf(const std::shared_ptr<const Trial>& written);

    // Of a program of any length, so not in every frame.
    std::shared_ptr<const Trial> looked_;
    std::uint16_t skipLevels_ = 0;
};

// Levels of block skip that the program writes; bit n for /n.
std::uint16_t skipLevelsIn(const Program& program);

}  // namespace firstoff::gui
