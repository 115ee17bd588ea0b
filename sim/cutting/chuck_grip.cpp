#include "sim/cutting/chuck_grip.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

double jawMomentKgM(int jaws, double topJawKg, double topJawRadiusMm, double baseJawKgM) {
    return jaws * (topJawKg * topJawRadiusMm / 1000 + baseJawKgM);
}

double centrifugalN(double momentKgM, double revPerMin) {
    const double radPerS = kPi * revPerMin / 30;
    return momentKgM * radPerS * radPerS;
}

double neededGripN(double heldN, double friction, double forceSafety) {
    assert(friction > 0);
    return heldN * forceSafety / friction;
}

double atGripN(double forceN, double atDiameterMm, double gripDiameterMm) {
    assert(gripDiameterMm > 0);
    return forceN * atDiameterMm / gripDiameterMm;
}

double leftAtSpeedN(double standingN, double lossN, Chuck::Grip way) {
    return way == Chuck::Grip::Outside ? std::max(0.0, standingN - lossN) : standingN + lossN;
}

double neededStandingN(double neededN, double centrifugalN, double speedSafety, Chuck::Grip way) {
    if (way == Chuck::Grip::Outside) return speedSafety * (neededN + centrifugalN);
    return std::max(neededN, speedSafety * (neededN - centrifugalN));
}

std::optional<double> permittedRevPerMin(double standingN, double neededN, double momentKgM) {
    assert(momentKgM > 0);
    if (standingN < neededN) return std::nullopt;
    return 30 / kPi * std::sqrt((standingN - neededN) / momentKgM);
}

double revPerMinOfLoss(double standingN, double momentKgM, double share) {
    assert(momentKgM > 0);
    return 30 / kPi * std::sqrt(share * standingN / momentKgM);
}

double heldByOneJawN(double gripN, double friction, int jaws) {
    return friction * gripN / jaws;
}

}  // namespace firstoff
