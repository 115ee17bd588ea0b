// Units used inside firstoff, and the only places where they change.
//
// Inside `sim`: lengths in mm, time in s, angles in rad, spindle speed in rev/min, feed in mm/rev or mm/min as the name
// says, surface speed in m/min. X is a radius everywhere except at the edges (program text, set-up file, tables,
// window), where it is a diameter as turners write it.
#pragma once

#include <numbers>

namespace firstoff {

inline constexpr double kPi = std::numbers::pi;
inline constexpr double kMmPerInch = 25.4;  // exactly: international yard and pound agreement of 1959, ISO 31-1

// What lengths are told in where the reader may choose, and how many decimals a length has in it.
struct LengthUnit {
    double mm = 1;
    const char* name = "mm";
    int decimals = 3;
};

constexpr double radians(double degrees) {
    return degrees * (kPi / 180.0);
}
constexpr double degrees(double radians) {
    return radians * (180.0 / kPi);
}

// n = 1000 vc / (pi D). `surfaceSpeedMPerMin` in m/min, `radiusMm` > 0 in mm; result in rev/min.
constexpr double revPerMin(double surfaceSpeedMPerMin, double radiusMm) {
    return 1000.0 * surfaceSpeedMPerMin / (2.0 * kPi * radiusMm);
}

// vc = pi D n / 1000, in m/min.
constexpr double surfaceSpeedMPerMin(double revPerMin, double radiusMm) {
    return 2.0 * kPi * radiusMm * revPerMin / 1000.0;
}

}  // namespace firstoff
