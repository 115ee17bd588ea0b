#include "sim/motion/surface_speed_lag.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

// Share of the speed; our own choice, below what controls let pass as reached (common practice, no source).
constexpr double kKeepsUp = 0.05;
constexpr double kLeastShare = 0.01;
constexpr int kSteps = 500;  // a step of the way is then far shorter than what such a lag takes to build up

}  // namespace

std::optional<SurfaceSpeedLag> surfaceSpeedLag(const FeedPath& path, const SpindleLaw& spindle,
                                               const SpindleRunUp& drive) {
    const StraightTravel& travel = path.straight();
    const double rise = travel.radiusTo - travel.radiusFrom;
    if (path.isArc() || spindle.hyperbola <= 0 || rise == 0 || path.length() <= 0) return std::nullopt;
    // Speed asked for changes fastest nearest to the axis, where no clamp holds it yet: dn/dt = n / |rho| * drho/dt.
    const double nearest = std::max(path.nearestRadius(), spindle.hyperbola / spindle.limit);
    if (nearest >= std::max(std::abs(travel.radiusFrom), std::abs(travel.radiusTo))) return std::nullopt;
    const double mmPerS = path.pace().at(nearest) * std::abs(rise) / path.length();
    const double speed = spindle.revPerMinAt(nearest);
    if (speed / nearest * mmPerS <= drive.gainAt(speed)) return std::nullopt;
    // Feed per minute goes on however the spindle lags.
    const bool followsSpindle = !std::isinf(path.pace().hyperbola);
    SurfaceSpeedLag worst;
    double behind = 0, share = 1;
    double turned = drive.secondsTo(spindle.revPerMinAt(travel.radiusFrom));  // the spindle, told in T
    for (int i = 1; i <= kSteps; ++i) {
        const double before = static_cast<double>(i - 1) / kSteps, after = static_cast<double>(i) / kSteps;
        const double asFed = path.seconds(before, after);
        const double time = followsSpindle ? asFed / std::max(share, kLeastShare) : asFed;
        const double radius = travel.radiusFrom + rise * after;
        const double asked = spindle.revPerMinAt(radius);
        turned += std::clamp(drive.secondsTo(asked) - turned, -time, time);
        share = drive.revPerMinAfter(turned) / asked;
        worst.feedSeconds += time - asFed;
        if (std::abs(share - 1) <= behind) continue;
        behind = std::abs(share - 1);
        worst.radius = radius;
        worst.reachedShare = share;
    }
    if (behind <= kKeepsUp) return std::nullopt;
    return worst;
}

}  // namespace firstoff
