// What the spindle can give, from the figures of its drive.
#pragma once

#include <optional>

#include "sim/setup/setup.h"

namespace firstoff {

// N m at the spindle at a speed (rev/min), continuous duty: between the points of the curve by straight lines, before
// the first and past the last as there. Nothing without a curve.
std::optional<double> torqueAvailableNm(const SpindleDrive& drive, double revPerMin);

// kW that the motor gives at the chuck, continuous duty, less what is lost on the way. Where the efficiency is not
// said, nothing is taken off: the spindle gives less than that. Nothing where the power is not known.
std::optional<double> powerAtChuckKw(const SpindleDrive& drive);

// Greatest kW that the curve has at the spindle, torque times speed; 0 without a curve.
double powerOfCurveKw(const SpindleDrive& drive);

// kW that the spindle gives at its best speed, the lower of curve and motor where both are known; 0 where neither is.
double mostPowerKw(const SpindleDrive& drive);

}  // namespace firstoff
