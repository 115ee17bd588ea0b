// How long the spindle takes from one speed to another, and how fast it turns meanwhile.
//
// Notation. n: speed, rev/min; w = 2 pi n / 60; M(n): torque of the drive at the spindle; J: moment of inertia of all
// that turns. J dw/dt = M(n), so that from standing to n it takes
//     T(n) = integral of (2 pi / 60) J / M dn
// which over a straight piece of the torque curve, M = M0 + k (n - n0), is (2 pi J / 60 k) ln(M / M0). Braking takes
// the same torque. A change from n1 to n2 takes |T(n2) - T(n1)|, and through standing still T(n1) + T(n2): told in T,
// the spindle always goes a second each second. Where the set-up gives the time of the whole run-up instead, T is that
// time's share n / n_max. Elementary mechanics.
#pragma once

#include <vector>

#include "sim/setup/setup.h"

namespace firstoff {

class SpindleRunUp {
public:
    explicit SpindleRunUp(const Setup& setup);

    // Whether the set-up says enough: run_up_s, or inertia and torque curve. Nothing below may be asked without it.
    bool known() const { return !pieces_.empty(); }
    double secondsTo(double revPerMin) const;     // T, 0 <= revPerMin
    double revPerMinAfter(double seconds) const;  // its inverse
    double gainAt(double revPerMin) const;        // dn/dt, rev/min per s

private:
    struct Piece {
        double from = 0;    // rev/min
        double before = 0;  // T there, s
        double torque = 0;  // there, and how it grows with the speed
        double slope = 0;
    };
    double within(const Piece& piece, double revPerMin) const;

    std::vector<Piece> pieces_;
    double inertia_ = 0;  // 2 pi J / 60
};

// Moment of inertia of the blank about the spindle axis, kg m2: a full or hollow cylinder through its corners, as long
// as it is chucked. 0 where the density of its material is not known.
double inertiaOfBlank(const Setup& setup);

}  // namespace firstoff
