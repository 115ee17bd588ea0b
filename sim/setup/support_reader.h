// What holds the bar beside the chuck: tailstock, second spindle, steady rest. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// The tables have been checked against the keys; contradictions between their values are added to `findings`, and
// mended.
Tailstock readTailstock(const SetupTable& table, std::vector<Finding>& findings);
// `chuck`: its own table, second_spindle.chuck.
SecondSpindle readSecondSpindle(const SetupTable& table, const SetupTable& chuck, std::vector<Finding>& findings);
SteadyRest readSteadyRest(const SetupTable& table, std::vector<Finding>& findings);

}  // namespace firstoff
