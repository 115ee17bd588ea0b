// How fast the spindle turns and how fast the tool goes, depending on the programmed radius.
#pragma once

#include <limits>

#include "sim/control/toolpath.h"
#include "sim/setup/setup.h"

namespace firstoff {

// Spindle speed over programmed radius: constant, or as much as the surface speed asks for up to a limit.
struct SpindleLaw {
    double limit = 0;      // rev/min; the speed itself where it does not depend on the radius; 0 stopped
    double hyperbola = 0;  // mm rev/min, limit of speed * radius under constant surface speed; 0: speed is constant

    double revPerMinAt(double radius) const;
};

// With the spindle override, which threads run without (common practice, no source): their lead is held by the speed.
SpindleLaw spindleLaw(const Move& move, const ModalState& modal, const Setup& setup);

// Pace along the path over programmed radius: min(flat, hyperbola / |radius|).
struct PaceLaw {
    double flat = 0;                                             // mm/s
    double hyperbola = std::numeric_limits<double>::infinity();  // mm²/s

    // Up to this radius the pace is flat, beyond it falls as the spindle slows down.
    double knee() const { return hyperbola / flat; }
    double at(double radius) const {
        const double r = radius < 0 ? -radius : radius;
        return r * flat > hyperbola ? hyperbola / r : flat;
    }
};

// Why a pace is not the one that F asks for.
struct PaceLimits {
    bool spindleStopped = false;  // feed per revolution without revolutions
    bool feedMissing = false;     // F is 0
};

// With the feed override and the dry-run switch. `limits` says what kept the feed from being a pace; the machine's
// largest feed is taken then, so that the move can be shown.
PaceLaw paceLaw(const Move& move, const ModalState& modal, const SpindleLaw& spindle, const Setup& setup,
                PaceLimits& limits);

}  // namespace firstoff
