// Clearances in words and figures.
#pragma once

#include <string>

#include "gui/measures.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

// "the jaws", with the billet where there are no bodies.
std::string bodyTitle(const Trial& trial, int body);
// "the holder of station 3 and the jaws"
std::string pairTitle(const Trial& trial, int body, int other);
// "1.24 mm", "0.0488 in", "touching"; never larger than it is; with how far one reaches into the other where that is
// known.
std::string gapTitle(double gapMm, Measures measures);
// "X 54.200  Z -20.000 mm", work coordinates; "Y 7.500" where it is not in the turning half-plane.
std::string placeTitle(SpacePoint place, Point datum, Measures measures);
// A margin as the table shows it, without its unit: "3.20", ">50"; on the safe side. `factor` 2 tells a radius as a
// diameter.
std::string marginTitle(const Margin& margin, double factor, Measures measures);

}  // namespace firstoff::gui
