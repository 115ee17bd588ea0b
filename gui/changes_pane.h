// Changes at the machine tried by hand: wear, another insert, centre height, datum, overrides; and what they alter.
#pragma once

#include "gui/page.h"

namespace firstoff::gui {

class ChangesPane {
public:
    void draw(const PaneContext& context, const Rect& rect);

private:
    void drawToolChoice(Page& page, const Trial& trial);
    void drawSliders(Page& page, const Trial& trial);
    void drawOutcome(Page& page, const Session& session);

    // What the sliders stand at; asked for again whenever one is drawn.
    WhatIf sliders_;
    std::uint32_t call_ = 0;  // of the tool that the sliders are about, into Toolpath::calls
};

}  // namespace firstoff::gui
