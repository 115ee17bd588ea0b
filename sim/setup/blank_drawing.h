// The drawing that a set-up names for its blank, once its text has been read.
#pragma once

#include <string>
#include <string_view>

#include "sim/setup/setup.h"

namespace firstoff {

// True where [stock] names a drawing.
bool wantsDrawing(const Stock& stock);

// The set-up with the drawing put into its stock: a section table where the name of the file ends in .csv, else DXF.
//
// A cross-section is drawn about the spindle axis, seen from the front, x towards the angle 0 (contour frame of Stock).
// A half-section is drawn with z as x and the radius as y, on one side of the axis only; a gap in the outline along the
// axis is closed. Its greatest z is put where the set-up wants the front face; turned round, its least.
//
// Whatever is wrong becomes findings of the set-up at the place that names the drawing, with the line of the drawing in
// the message. Where no outline comes out, the blank stays without a radius, so nothing is cut.
Setup withDrawing(Setup setup, std::string_view text);

// The same where the file could not be had, with the reason in plain words.
Setup withoutDrawing(Setup setup, std::string_view reason);

}  // namespace firstoff
