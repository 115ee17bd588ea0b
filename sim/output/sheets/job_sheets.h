// Papers made from a trial: what stands on each of them.
#pragma once

#include <string>
#include <string_view>

#include "sim/output/sheets/sheet.h"
#include "sim/output/sheets/sheet_pdf.h"
#include "sim/trial/trial.h"

namespace firstoff {

struct SheetOptions {
    std::string setupText;           // of the set-up file, to quote from and to tell by its sum; may be empty
    std::string date;                // as it shall stand on the paper; empty: none. Nothing here asks a clock
    double figureMm = kSheetBodyMm;  // widest drawing
    bool answers = false;            // of a hand-out: a page with the answers to its exercises
};

// Figures that the trial does not know are left out, and it is said why. Where the verdict is not clear the first
// section says so.
Sheet makeSheet(const Trial& trial, SheetKind kind, const SheetOptions& options);

// How wide drawings are in HTML: letters of 2.5 mm can be read where this fills the 380 pixels of a phone.
inline constexpr double kPhoneFigureMm = 118;

}  // namespace firstoff
