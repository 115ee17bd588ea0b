// How near things come: contacts and near misses, how wrong the set-up may be before the first contact, what was
// watched and what was not.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "gui/pane.h"

namespace firstoff::gui {

class ClearancePane {
public:
    void draw(const PaneContext& context, const Rect& rect);

private:
    void arrange(const std::shared_ptr<const Trial>& trial, bool byTime);
    void drawSummary(const PaneContext& context, const Trial& trial, float width);
    void drawEncounters(const PaneContext& context, const Trial& trial, float width);
    void drawRow(const PaneContext& context, const Trial& trial, std::size_t which, float width);
    void drawMargins(const PaneContext& context, const Trial& trial, float width);
    void drawNotModelled(const PaneContext& context, const Trial& trial, float width);

    std::shared_ptr<const Trial> arranged_;
    bool arrangedByTime_ = false;
    std::vector<std::size_t> order_;  // of encounters, worst first or in order of time
    std::size_t shown_ = 0;           // of them, at most
};

}  // namespace firstoff::gui
