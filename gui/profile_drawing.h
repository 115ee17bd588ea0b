// A roughness profile drawn into a pane.
#pragma once

#include "gui/finish_worker.h"
#include "gui/pane.h"

namespace firstoff::gui {

// Metal below the profile, mean line, ends of the sampling lengths, scales in µm and mm along the surface, and f²/8r
// beside it where it holds. Returns by how much the heights are magnified. `answer` must have figures.
double drawProfile(const PaneContext& context, const Rect& rect, const FinishAnswer& answer);

}  // namespace firstoff::gui
