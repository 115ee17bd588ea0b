// A rapid laid out in time: every axis from standing to standing at its own rapid, from the same moment; or both along
// a straight line at what the slower one lets it.
#pragma once

#include "sim/motion/speed_profile.h"
#include "sim/setup/setup.h"

namespace firstoff {

class RapidRun {
public:
    RapidRun(Point from, Point to, const Setup& setup);

    double seconds() const { return whole_.seconds(); }
    // Per axis, both moving and not equally long: where the axis that takes longer stands when the other one has
    // arrived, and when. The way there bends a little away from the straight line where both change their speeds.
    bool hasElbow() const { return hasElbow_; }
    Point elbow() const { return elbow_; }
    double elbowSeconds() const { return elbowSeconds_; }

    // Part of a leg's length after `time` seconds of it. First leg: to the elbow, or all of it without one.
    double fractionOfFirst(double time) const;
    double fractionOfSecond(double time) const;
    // Pace along the path at the elbow, mm/s: at the end of the first leg, at the beginning of the second.
    double paceIntoElbow() const;
    double paceOutOfElbow() const { return whole_.paceAfter(elbowSeconds_); }

private:
    SpeedProfile whole_;  // of the longer axis, or along the line
    double way_ = 0;      // that it goes
    bool hasElbow_ = false;
    Point from_, elbow_;
    double elbowSeconds_ = 0, elbowWay_ = 0;
};

}  // namespace firstoff
