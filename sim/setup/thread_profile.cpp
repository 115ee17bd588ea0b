#include "sim/setup/thread_profile.h"

#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

namespace {

bool isAngle(double angle, double deg) {
    return std::abs(angle - radians(deg)) < radians(0.01);
}

double trapezoidalClearanceMm(double pitch) {
    if (pitch <= 1.5) return 0.15;
    if (pitch <= 5) return 0.25;
    return pitch <= 12 ? 0.5 : 1.0;
}

// What the flanks leave of a pitch at the top of a groove `depth` deep.
double crestBeside(double angle, double pitch, double depth, double rootRadius, double rootFlat) {
    const double half = angle / 2;
    // A round root hangs R / sin(half) - R above the corner of the flanks.
    const double below = rootRadius > 0 ? rootRadius / std::sin(half) - rootRadius : 0;
    return pitch - rootFlat - 2 * (depth + below) * std::tan(half);
}

}  // namespace

std::optional<ThreadBasics> threadBasics(double angle, double pitch, bool inside) {
    ThreadBasics basics;
    if (isAngle(angle, 60)) {
        const double h = std::sqrt(3.0) / 2 * pitch;
        basics.depth = inside ? 5.0 / 8 * h : 17.0 / 24 * h;
        (inside ? basics.rootFlat : basics.rootRadius) = inside ? pitch / 8 : h / 6;
    } else if (isAngle(angle, 55)) {
        basics.depth = 0.640327 * pitch;
        basics.rootRadius = 0.137329 * pitch;
        basics.roundedCrest = true;
    } else if (isAngle(angle, 30)) {
        const double clearance = trapezoidalClearanceMm(pitch);
        basics.depth = 0.5 * pitch + clearance;
        basics.rootFlat = 0.366 * pitch - 0.536 * clearance;
    } else {
        return std::nullopt;
    }
    basics.crestFlat = crestBeside(angle, pitch, basics.depth, basics.rootRadius, basics.rootFlat);
    if (basics.rootRadius <= 0 && basics.rootFlat <= 0) return std::nullopt;
    return basics;
}

}  // namespace firstoff
