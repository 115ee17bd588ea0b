// The finish of every surface of a part, a row each, for people and for spreadsheets.
#pragma once

#include <string>
#include <vector>

#include "sim/trial/finish.h"

namespace firstoff {

// `reports` of surfaceFinishes. Where each surface is (Z from sectionDatum(), X as diameter), the tool and line that
// left it, feed and nose radius, Rz and Ra by the formulas for a nose beside those of the simulated profile, in µm;
// below the table what to know of single rows.
std::string finishOverview(const Trial& trial, const std::vector<FinishReport>& reports);

// Rows of `surface,piece,kind,z_from_mm,z_to_mm,x_from_mm,x_to_mm,line,tool,feed_mm_per_rev,nose_radius_mm,
// formula_rz_um,formula_ra_um,rz_um,ra_um,filtered,said`; cells without a figure are empty.
std::string finishRows(const Trial& trial, const std::vector<FinishReport>& reports);

}  // namespace firstoff
