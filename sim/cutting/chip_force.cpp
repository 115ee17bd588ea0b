#include "sim/cutting/chip_force.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

double ChipLaw::specificForce(double thicknessMm) const {
    assert(thicknessMm > 0);
    return kc11 * std::pow(thicknessMm, -mc);
}

double rakeFactor(const Material& material, const Tool& tool) {
    if (!tool.rakeAngle) return 1;
    const double change = kRakeSharePerDegree * (degrees(*tool.rakeAngle) - degrees(material.rakeAngle));
    return 1 - std::clamp(change, -kMostRakeChange, kMostRakeChange);
}

ChipLaw chipLaw(const Material& material, const Tool& tool) {
    return {material.kc11 * rakeFactor(material, tool), material.mc};
}

double sidewaysShare() {
    return std::hypot(kFeedForceShare, kPassiveForceShare);
}

SidewaysForce sidewaysForce(double cuttingN, Point push, Point aside) {
    SidewaysForce result;
    result.force = (sidewaysShare() * cuttingN / length(push)) * push;
    if (aside.z == 0 && aside.r == 0) return result;
    const double lacks = kPassiveForceShare * cuttingN - dot(result.force, aside);
    result.least = lacks > 0;
    if (result.least) result.force = result.force + lacks * aside;
    return result;
}

double cuttingForceN(const ChipLaw& law, double widthMm, double thicknessMm) {
    return law.specificForce(thicknessMm) * widthMm * thicknessMm;
}

double powerKw(double forceN, double speedMPerMin) {
    return forceN * speedMPerMin / 60000;
}

double torqueNm(double forceN, double radiusMm) {
    return forceN * radiusMm / 1000;
}

double motorPowerKw(double cutKw, double efficiency) {
    assert(efficiency > 0);
    return cutKw / efficiency;
}

double powerOfTorqueKw(double torqueNm, double revPerMin) {
    return torqueNm * 2 * kPi * revPerMin / 60 / 1000;
}

double removalCm3PerMin(double speedMPerMin, double depthMm, double feedMmPerRev) {
    return speedMPerMin * depthMm * feedMmPerRev;
}

PlainChip plainChip(double feedMmPerRev, double depthMm, double enteringAngle) {
    const double sine = std::sin(enteringAngle);
    assert(sine > 0);
    return {feedMmPerRev * sine, depthMm / sine};
}

}  // namespace firstoff
