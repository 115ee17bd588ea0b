#include "sim/motion/speed_profile.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

SpeedProfile::SpeedProfile(double length, double from, double to, double most, const PathDynamics& dynamics)
    : length_(length), from_(from), to_(to), dynamics_(dynamics) {
    if (length <= 0) return;
    if (!dynamics.known()) {
        from_ = to_ = peak_ = most;
        running_ = length / most;
        return;
    }
    most = std::max({most, from, to});
    if (wayOfChange(from, to, dynamics) >= length && from + to > 0) {
        even_ = true;
        peak_ = std::max(from, to);
        gaining_ = 2 * length / (from + to);
        return;
    }
    double gained = wayOfChange(from, most, dynamics), lost = wayOfChange(most, to, dynamics);
    peak_ = most;
    if (!(gained + lost <= length)) {
        peak_ = findPeak(most);
        gained = wayOfChange(from, peak_, dynamics);
        lost = wayOfChange(peak_, to, dynamics);
    }
    gaining_ = secondsOfChange(from, peak_, dynamics);
    losing_ = secondsOfChange(peak_, to, dynamics);
    // What rounding leaves of a move too short to run evenly is lost in the last figure.
    running_ = std::max(0.0, length - gained - lost) / peak_;
}

// The pace at which gaining and losing speed take the whole length. Their ways grow with it, so halving a bracket finds
// it; steps of the secant inside the bracket are quicker.
double SpeedProfile::findPeak(double most) const {
    if (dynamics_.jerk <= 0) {
        return std::sqrt(dynamics_.acceleration * length_ + (from_ * from_ + to_ * to_) / 2);
    }
    double low = std::max(from_, to_);
    double high = std::min(most, paceWithinReach(std::min(from_, to_), length_, dynamics_));
    const auto tooFar = [this](double v) {
        return wayOfChange(from_, v, dynamics_) + wayOfChange(v, to_, dynamics_) - length_;
    };
    double below = tooFar(low), above = tooFar(high);
    if (above <= 0) return high;
    for (int i = 0; i < 100 && high - low > 1e-15 * high; ++i) {
        double v = low - below * (high - low) / (above - below);
        if (i % 3 == 2 || !(v > low && v < high)) v = (low + high) / 2;
        const double f = tooFar(v);
        if (f == 0) return v;
        (f > 0 ? high : low) = v;
        (f > 0 ? above : below) = f;
    }
    return low;
}

double SpeedProfile::wayAfter(double time) const {
    if (even_) return time * (from_ + (to_ - from_) * time / gaining_ / 2);
    if (time <= gaining_) return wayWithinChange(from_, peak_, dynamics_, time);
    const double left = seconds() - time;
    if (left <= losing_) return length_ - wayWithinChange(to_, peak_, dynamics_, std::max(0.0, left));
    return wayOfChange(from_, peak_, dynamics_) + peak_ * (time - gaining_);
}

double SpeedProfile::paceAfter(double time) const {
    if (even_) return from_ + (to_ - from_) * time / gaining_;
    if (time <= gaining_) return paceWithinChange(from_, peak_, dynamics_, time);
    const double left = seconds() - time;
    if (left <= losing_) return paceWithinChange(to_, peak_, dynamics_, std::max(0.0, left));
    return peak_;
}

double SpeedProfile::secondsTo(double way) const {
    if (even_) {
        // way = t (u + (v - u) t / 2 T), as in secondsWithinChange().
        const double a = (to_ - from_) / gaining_;
        const double pace = std::sqrt(std::max(0.0, from_ * from_ + 2 * a * way));
        return from_ + pace > 0 ? std::min(gaining_, 2 * way / (from_ + pace)) : 0;
    }
    const double gained = wayOfChange(from_, peak_, dynamics_), left = length_ - way;
    if (way <= gained) return secondsWithinChange(from_, peak_, dynamics_, way);
    if (left <= wayOfChange(to_, peak_, dynamics_)) {
        return seconds() - secondsWithinChange(to_, peak_, dynamics_, left);
    }
    return gaining_ + (way - gained) / peak_;
}

}  // namespace firstoff
