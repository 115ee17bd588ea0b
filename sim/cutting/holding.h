// Whether chuck and tailstock hold the part against the cut: an estimate by the method of VDI 3106 as chuck makers'
// manuals give it (tests/reference/chuck_grip.csv). The chuck maker's chart and authorised people decide.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/control/toolpath.h"
#include "sim/cutting/cutting_load.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

// The cut that asks most of the grip, all forces of all jaws together, N.
struct GripEstimate {
    std::uint32_t timedMove = 0;
    double fraction = 0;
    double revPerMin = 0;
    double gripDiameterMm = 0;
    double neededN = 0;        // at speed, so that friction holds torque and axial push, safety included
    double lostN = 0;          // what the speed takes away (outside grip) or adds (inside grip: negative)
    double leftN = 0;          // standing grip less that
    double neededStandingN = 0;  // standing grip that the method asks for, with both safety factors
    double permittedRevPerMin = 0;  // for this cut and the grip as it is set
    double axialPushN = 0;     // of the cut, towards the chuck positive
    double forceSafety = 0, speedSafety = 0, friction = 0;  // as taken
};

struct HoldingResult {
    std::optional<GripEstimate> grip;       // nothing where forces or the chuck are not known well enough
    std::vector<std::string> missing;       // what the set-up would have to say for it, in plain words
    std::vector<std::string> assumed;       // likewise what was taken for granted
    double centrePushN = 0;                 // greatest axial push of the cut away from the centre, beside its force
    std::vector<Finding> findings;
};

HoldingResult estimateHolding(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                              const LoadResult& loads);

}  // namespace firstoff
