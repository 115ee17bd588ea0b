// Asks which sequence numbers a program is to get and how its words stand apart, and tells why numbers were refused.
#pragma once

#include <string>
#include <vector>

#include "gui/pane.h"
#include "sim/editing/renumber.h"

namespace firstoff::gui {

class RenumberDialog {
public:
    void open() {
        open_ = true;
        refusals_.clear();
    }
    bool isOpen() const { return open_; }
    // What came of it: closes, or stays and shows why nothing was changed.
    void answer(const Renumbered& result);
    const std::vector<std::string>& refusals() const { return refusals_; }

    void draw(const PaneContext& context);

private:
    void drawNumbers(const PaneContext& context);
    void drawSpacing(const PaneContext& context);
    void drawRefusals(const PaneContext& context);

    bool open_ = false;
    int first_ = 10, step_ = 10;
    bool everyBlock_ = true;
    std::vector<std::string> refusals_;
};

}  // namespace firstoff::gui
