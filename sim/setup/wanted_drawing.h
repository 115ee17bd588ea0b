// The drawing of the part that a set-up names under [drawing], once its text has been read.
#pragma once

#include <string_view>

#include "sim/setup/setup.h"

namespace firstoff {

// The set-up with the drawn half-section in its `wanted.outline`: work frame of the first work offset, outer outlines
// anticlockwise and what lies within them clockwise, so that the metal is on the left.
//
// Drawn with x as z and y as the radius. An outline drawn whole, alike on both sides of the axis, is taken for its
// upper half, which is noted. Whatever else is wrong becomes findings at the place that names the file, with the line
// and layer of the drawing in the message: what is not understood, gaps, two outlines side by side, a part that does
// not fit into the bar or is far too small for it; then there is no outline. The blank must have been read before.
Setup withWantedDrawing(Setup setup, std::string_view text);

// The same where the file could not be had, with the reason in plain words.
Setup withoutWantedDrawing(Setup setup, std::string_view reason);

}  // namespace firstoff
