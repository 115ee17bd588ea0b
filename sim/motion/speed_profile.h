// A stretch of the path from one pace to another with a greatest pace between: gaining speed, running, losing speed.
#pragma once

#include "sim/motion/speed_change.h"

namespace firstoff {

class SpeedProfile {
public:
    // `most` may be infinite. The ends must be within reach of each other over the length, see paceWithinReach();
    // what rounding takes off that is made good by an even change.
    SpeedProfile(double length, double from, double to, double most, const PathDynamics& dynamics);

    double seconds() const { return gaining_ + running_ + losing_; }
    double peak() const { return peak_; }  // greatest pace reached
    // When it has gained its greatest pace, and when it begins to lose it.
    double gained() const { return gaining_; }
    double loses() const { return gaining_ + running_; }
    double wayAfter(double time) const;   // mm, for 0 <= time <= seconds()
    double paceAfter(double time) const;  // mm/s
    double secondsTo(double way) const;   // the inverse of wayAfter(), for 0 <= way <= the length

private:
    double findPeak(double most) const;

    double length_, from_, to_;
    PathDynamics dynamics_;
    double peak_ = 0;
    double gaining_ = 0, running_ = 0, losing_ = 0;  // s
    bool even_ = false;
};

}  // namespace firstoff
