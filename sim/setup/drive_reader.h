// What makes slides and spindle move, and how long other things take: reads it from the tables [machine], [spindle],
// [times] and [overrides]. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

// Of the table [machine]. Acceleration of one axis only, or jerk and look-ahead without it, are findings: they would
// count for nothing.
AxisDynamics readAxisDynamics(const SetupTable& machine, std::vector<Finding>& findings);

// A torque curve that is none is a finding and left out.
SpindleDrive readSpindleDrive(const SetupTable& table, std::vector<Finding>& findings);

OtherTimes readOtherTimes(const SetupTable& table);

// Without the feed holds, which have tables of their own.
Overrides readOverrides(const SetupTable& table);

}  // namespace firstoff
