// The sizes of the part, as the gauge found them, drawn with arrows into the half-section.
#pragma once

#include "gui/pane.h"
#include "gui/section/section_view.h"

namespace firstoff::gui {

// `lowest`: radius below which (at the lower side, as a positive number) there is no part, where lengths are drawn.
void drawDimensions(const PaneContext& context, const SectionView& view, const Trial& trial, double lowest);

// How much room lengths take beneath the part, px.
float heightOfLengths(const PaneContext& context, const Trial& trial);

}  // namespace firstoff::gui
