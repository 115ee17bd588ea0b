// Sheets as HTML.
#pragma once

#include <string>

#include "sim/output/sheets/sheet.h"

namespace firstoff {

// One file that needs nothing else: style and pictures stand in it, there are no scripts and nothing is fetched.
// Well-formed XML as well. Reads down to 380 pixels of width, prints on A4; figures are true to scale on paper.
std::string sheetHtml(const Sheet& sheet);

// A sketch as an SVG element, a user unit a millimetre.
std::string sketchSvg(const Sketch& sketch);

}  // namespace firstoff
