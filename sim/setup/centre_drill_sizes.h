// Sizes of centre drills with a 60° cone, by the diameter of the pilot: ISO 866 (form A) and ISO 2540 (form B). From
// memory; the set-up file may say other sizes.
#pragma once

#include <optional>

namespace firstoff {

struct CentreDrillSize {
    double pilotMm = 0;
    double pilotLengthMm = 0;  // from the point, least length
    double bodyAMm = 0;        // body diameter of form A
    double bodyBMm = 0;        // of form B
    double protectiveMm = 0;   // form B: where the cone ends and the chamfer of 120° begins
};

// Nothing for a pilot that is in no table.
std::optional<CentreDrillSize> centreDrillSize(double pilotMm);

}  // namespace firstoff
