// Clearances in words and figures.
#pragma once

#include <string>

#include "sim/trial/trial.h"

namespace firstoff::gui {

// "the jaws", with the billet where there are no bodies.
std::string bodyTitle(const Trial& trial, int body);
// "the holder of station 3 and the jaws"
std::string pairTitle(const Trial& trial, int body, int other);
// "1.24 mm", "touching"; with how far one reaches into the other where that is known.
std::string gapTitle(double gapMm);
// "X 54.200  Z -20.000", work coordinates; "Y 7.500" where it is not in the turning half-plane.
std::string placeTitle(SpacePoint place, Point datum);
// A margin as the table shows it: "3.20", ">50"; on the safe side. `factor` 2 tells a radius as a diameter.
std::string marginTitle(const Margin& margin, double factor);

}  // namespace firstoff::gui
