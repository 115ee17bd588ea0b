#include "sim/cutting/spindle_limits.h"

#include <algorithm>

#include "sim/cutting/chip_force.h"

namespace firstoff {

std::optional<double> torqueAvailableNm(const SpindleDrive& drive, double revPerMin) {
    const std::vector<SpindleDrive::CurvePoint>& curve = drive.curve;
    if (curve.empty()) return std::nullopt;
    const auto after = std::upper_bound(curve.begin(), curve.end(), revPerMin,
                                        [](double n, const SpindleDrive::CurvePoint& p) { return n < p.revPerMin; });
    if (after == curve.begin()) return curve.front().torqueNm;
    if (after == curve.end()) return curve.back().torqueNm;
    const SpindleDrive::CurvePoint &a = *(after - 1), &b = *after;
    return a.torqueNm + (revPerMin - a.revPerMin) / (b.revPerMin - a.revPerMin) * (b.torqueNm - a.torqueNm);
}

std::optional<double> powerAtChuckKw(const SpindleDrive& drive) {
    if (drive.powerKw <= 0) return std::nullopt;
    return drive.powerKw * (drive.efficiency > 0 ? drive.efficiency : 1);
}

double powerOfCurveKw(const SpindleDrive& drive) {
    double most = 0;
    for (std::size_t i = 0; i < drive.curve.size(); ++i) {
        const SpindleDrive::CurvePoint& b = drive.curve[i];
        most = std::max(most, powerOfTorqueKw(b.torqueNm, b.revPerMin));
        if (i == 0) continue;
        // Between two points the torque falls evenly, and its product with the speed may be greatest in between.
        const SpindleDrive::CurvePoint& a = drive.curve[i - 1];
        const double slope = (b.torqueNm - a.torqueNm) / (b.revPerMin - a.revPerMin);
        const double at = slope < 0 ? (a.revPerMin - a.torqueNm / slope) / 2 : 0;
        if (at <= a.revPerMin || at >= b.revPerMin) continue;
        most = std::max(most, powerOfTorqueKw(a.torqueNm + slope * (at - a.revPerMin), at));
    }
    return most;
}

double mostPowerKw(const SpindleDrive& drive) {
    const double curve = powerOfCurveKw(drive);
    const std::optional<double> motor = powerAtChuckKw(drive);
    if (!motor) return curve;
    return curve > 0 ? std::min(curve, *motor) : *motor;
}

}  // namespace firstoff
