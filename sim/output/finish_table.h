// The finish of surfaces, for people and for spreadsheets.
#pragma once

#include <string>
#include <vector>

#include "sim/trial/finish.h"

namespace firstoff {

// A paragraph per surface: where it is (Z from sectionDatum(), X as diameter), which lines left it, Ra, Rz and the rest
// in µm with the cut-off and evaluation length, the formulas for a nose beside them, and what to know.
std::string finishTable(const Trial& trial, const std::vector<FinishReport>& reports);

// Profiles as rows `surface,along_mm,z_mm,r_mm,height_um`; surfaces count from 1.
std::string finishProfiles(const Trial& trial, const std::vector<FinishReport>& reports);

}  // namespace firstoff
