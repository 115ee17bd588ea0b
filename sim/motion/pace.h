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

SpindleLaw spindleLaw(const ModalState& modal, const Machine& machine);

// Pace along the path over programmed radius: min(flat, hyperbola / |radius|).
struct PaceLaw {
    double flat = 0;                                             // mm/s
    double hyperbola = std::numeric_limits<double>::infinity();  // mm²/s

    // Up to this radius the pace is flat, beyond it falls as the spindle slows down.
    double knee() const { return hyperbola / flat; }
};

// Why a pace is not the one that F asks for.
struct PaceLimits {
    bool spindleStopped = false;  // feed per revolution without revolutions
    bool feedMissing = false;     // F is 0
};

// `limits` says what kept the feed from being a pace; the machine's largest feed is taken then, so that the move can be
// shown.
PaceLaw paceLaw(const Move& move, const ModalState& modal, const SpindleLaw& spindle, const Machine& machine,
                PaceLimits& limits);

}  // namespace firstoff
