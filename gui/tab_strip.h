// Buttons that choose which of several pages stands beneath them, in as many rows as they need, at most three.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "gui/pane.h"

namespace firstoff::gui {

struct TabButton {
    int id = 0;
    std::string_view name;  // in English whatever the language, for reports and tests
    std::string text;
    Rect place;  // where it was drawn
};

float tabStripHeight(const PaneContext& context, const std::vector<TabButton>& buttons, float width);
// The one shown from now on.
int drawTabStrip(const PaneContext& context, std::vector<TabButton>& buttons, int shown, const Rect& place);

}  // namespace firstoff::gui
