// The finish of surfaces, for people and for spreadsheets.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/trial/finish.h"

namespace firstoff {

// A paragraph per surface: where it is (Z from sectionDatum(), X as diameter), which lines left it, Ra, Rz and the rest
// in µm with the cut-off and evaluation length, the formulas for a nose beside them, and what to know.
std::string finishTable(const Trial& trial, const std::vector<FinishReport>& reports);

// Single lines of that paragraph, for places that draw. Without a line end.
// "outside, Z-1.000 to Z-15.000 (piece 1)"; `diameters` stands behind the word for the side, of a face not.
std::string surfaceInWords(const Trial& trial, const FinishReport& report, std::string_view diameters = {});
std::string cutByInWords(const Trial& trial, const FinishReport& report);  // "T3; line 21; feed 0.12 mm …"
// What no figure of a finish says.
std::string_view finishCaution();

// Profiles as rows `surface,along_mm,z_mm,r_mm,height_um`; surfaces count from 1.
std::string finishProfiles(const Trial& trial, const std::vector<FinishReport>& reports);

}  // namespace firstoff
