// A rapid laid out in time: every axis from standing to standing at its own rapid, from the same moment; or both along
// a straight line at what the slower one lets it.
#pragma once

#include <vector>

#include "sim/motion/speed_profile.h"
#include "sim/setup/setup.h"

namespace firstoff {

// How far the stretches of a dog-leg, which are straight, may lie from the way that two axes really take while they
// change their speeds, mm. Well below any distance at which things count as near; smaller, there are more stretches.
inline constexpr double kBendMm = 0.05;

class RapidRun {
public:
    RapidRun(Point from, Point to, const Setup& setup);

    double seconds() const { return whole_.seconds(); }
    // Per axis, both moving: where the axis that takes longer stands when the other one has arrived, and when. From
    // there on it goes alone, if that is not the end. None where the way is a straight line.
    bool hasElbow() const { return hasElbow_; }
    Point elbow() const { return elbow_; }
    double elbowSeconds() const { return elbowSeconds_; }

    struct Bend {
        double time = 0;
        Point place;
        double pace = 0;  // of both axes together
    };
    // With an elbow: places on the true way to it, so that straight stretches between them keep to kBendMm; the last is
    // the elbow. Where axes change their speeds at once, that alone.
    std::vector<Bend> bends() const;

    // Part of the length after `time` seconds: of all of it, and of what lies behind the elbow.
    double fractionOfAll(double time) const;
    double fractionBehindElbow(double time) const;
    double paceBehindElbow() const { return whole_.paceAfter(elbowSeconds_); }  // at the elbow, of the one axis

private:
    Point placeAfter(double time) const;
    double bendOver(double from, double to) const;
    int piecesOver(double from, double to) const;

    SpeedProfile whole_;  // of the longer axis, or along the line
    SpeedProfile z_, r_;
    PathDynamics ofZ_, ofR_;
    double way_ = 0;  // that it goes
    bool hasElbow_ = false;
    Point from_, to_, elbow_;
    double elbowSeconds_ = 0, elbowWay_ = 0;
};

}  // namespace firstoff
