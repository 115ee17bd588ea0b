// Figures as they stand in messages: mm with up to four decimals, no trailing zeros.
#pragma once

#include <string>

#include "sim/base/point.h"

namespace firstoff {

std::string figure(double value);
// A position as turners say it: `X20 Z-15`, X as diameter.
std::string place(Point work);

}  // namespace firstoff
