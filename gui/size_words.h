// Sizes of a drawing in the units of the window. Angles are degrees whatever these are.
#pragma once

#include <string>

#include "gui/measures.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

// "24.000", "0.9449", of a taper "36.870°"; "-" for no number. For places that name the unit beside it.
std::string sizeFigure(const GaugedDimension& dimension, double size, Measures measures);
// With its unit: "24.000 mm".
std::string sizeTold(const GaugedDimension& dimension, double size, Measures measures);
// What it gives way: "+0.012 mm", "0", "not known".
std::string bendingTold(const GaugedDimension& dimension, Measures measures);
// "from 24.004 at Z-2.000 to 24.012 at Z-20.000 along it"; empty where it is alike.
std::string endsTold(const Trial& trial, const GaugedDimension& dimension, Measures measures);
// "0.012 mm too small": how far a size is out of its limits; empty within them.
std::string outInWords(const GaugedDimension& dimension, Measures measures);

}  // namespace firstoff::gui
