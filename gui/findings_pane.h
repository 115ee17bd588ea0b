// What was found, each with its remedy; a click goes to the moment and the line.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "gui/pane.h"

namespace firstoff::gui {

class FindingsPane {
public:
    void draw(const PaneContext& context, const Rect& rect);

private:
    void arrange(const PaneContext& context, float width);
    void drawNotChecked(const PaneContext& context, float y);
    void drawRow(const PaneContext& context, std::size_t row, float y, const Rect& rect);

    // Heights of the rows for one trial and one width: wrapped text, laid out once, so that only what is in sight is
    // drawn.
    std::shared_ptr<const Trial> arranged_;
    float arrangedWidth_ = 0;
    float arrangedScale_ = 0;
    std::vector<std::size_t> order_;  // into Trial::findings, worst first
    std::vector<float> tops_;         // one more than rows
    std::size_t chosen_ = static_cast<std::size_t>(-1);
};

}  // namespace firstoff::gui
