// Lines of a technical drawing on screen: wide and narrow, chain and dashed, arrows.
//
// Kinds of lines and their meaning by ISO 128-2 (from memory): continuous wide for edges that are seen, continuous
// narrow for dimensions and hatching, long-dashed dotted for axes, long-dashed double-dotted for what stood there
// before.
#pragma once

#include <vector>

#include "gui/pane.h"

namespace firstoff::gui {

enum class LineKind : std::uint8_t { Continuous, Dashed, Chain, DoubleChain };

struct Pen {
    ImU32 colour = 0;
    float width = 1;  // px
    LineKind kind = LineKind::Continuous;

    friend bool operator==(const Pen&, const Pen&) = default;
};

// Dashes go on round corners. `scale`: px of a measure at scale 1.
void drawLine(ImDrawList& list, const std::vector<ImVec2>& points, const Pen& pen, float scale, bool closed = false);

// A filled arrow with its point at `tip`, pointing along `direction` (of length 1).
void drawArrow(ImDrawList& list, ImVec2 tip, ImVec2 direction, float length, ImU32 colour);

}  // namespace firstoff::gui
