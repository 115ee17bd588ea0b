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

    WhatIf sliders_;          // what they stand at, while they are drawn
    std::uint32_t call_ = 0;  // of the tool that the sliders are about, into Toolpath::calls
};

// What the trial shown differs in from the job as it is written: time, load, sizes, findings, surfaces; and in one or
// two lines. Nothing where it shows no changes.
void drawComparison(const Page& page, const Session& session);
void drawComparisonInShort(const Page& page, const Session& session);

}  // namespace firstoff::gui
