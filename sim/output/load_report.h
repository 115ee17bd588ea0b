// What the loads of a trial come to, for people and for spreadsheets: per tool its greatest figures with their lines,
// and every sample.
#pragma once

#include <string>

#include "sim/trial/trial.h"

namespace firstoff {

// A few lines for the terminal: a row per tool call that took metal. Empty where none did. Without the sentences on
// what was taken for granted, see LoadResult::assumed.
std::string loadSummary(const Trial& trial);

// The same with all peaks, each with its line, and those sentences.
std::string loadTable(const Trial& trial);

// `line,tool,time_s,x_mm,z_mm,chip_area_mm2,width_mm,depth_mm,thickness_mm,force_n,force_most_n,force_z_n,force_x_n,
// torque_nm,power_kw,removal_mm3_per_s,mean`: a row per sample, in the order of time. X as diameter and Z in work
// coordinates, of the engaged edge; force_x_n along the radius. Cells of forces are empty where the material is not
// known; `mean` 1 for passes of threads and tapped holes.
std::string loadSamples(const Trial& trial);

// The table of materials that is part of the program, with sources, for the terminal.
std::string materialList();

}  // namespace firstoff
