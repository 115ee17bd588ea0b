// Sheets as PDF, A4 upright.
#pragma once

#include <string>

#include "sim/output/sheets/sheet.h"

namespace firstoff {

// Widest sketch that fits between the margins, mm.
inline constexpr double kSheetBodyMm = 182;

// Drawn with Cairo and Pango. The same sheet gives the same bytes with the same fonts installed; no date is written
// into it. Throws std::runtime_error if the letters cannot be drawn at all.
std::string sheetPdf(const Sheet& sheet);

}  // namespace firstoff
