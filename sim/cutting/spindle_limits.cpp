#include "sim/cutting/spindle_limits.h"

#include <algorithm>

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

}  // namespace firstoff
