// A move at feed laid out in time: its path, the pace that feed and spindle ask for at every place of it, and how the
// slides come to that pace and leave it.
#pragma once

#include "sim/motion/pace.h"
#include "sim/motion/speed_profile.h"
#include "sim/motion/timeline.h"
#include "sim/motion/travel_time.h"

namespace firstoff {

// The path with its law of pace, as if speeds changed at once.
class FeedPath {
public:
    // `timed` gives ends, centre and kind; `shift` takes its places to programmed ones. On an arc the pace is held
    // where the way round asks for no more than the slides' acceleration has: see kTowardsCentre.
    FeedPath(const TimedMove& timed, Point shift, PaceLaw pace, const AxisDynamics& axes);

    double length() const { return length_; }
    bool isArc() const { return isArc_; }
    const Arc& arc() const { return arc_; }
    const StraightTravel& straight() const { return straight_; }
    const PaceLaw& pace() const { return pace_; }
    // Of the slides along the path: on a straight that of the axis that has to gain most; on an arc what the way round
    // leaves, whatever its direction.
    const PathDynamics& dynamics() const { return dynamics_; }
    double paceAt(double fraction) const;
    // Unit vectors along the path.
    Point directionAtStart() const;
    Point directionAtEnd() const;

    double seconds(double from, double to) const;          // between two parts of the length
    double fractionAfter(double from, double time) const;  // part of the length, from a part of it on
    double nearestRadius() const;                          // to the axis, programmed

private:
    double radiusAt(double fraction) const;
    Arc arcBetweenParts(double from, double to) const;

    bool isArc_ = false;
    Arc arc_;
    StraightTravel straight_;
    Point direction_;
    double centreRadius_ = 0;
    double length_ = 0;
    PaceLaw pace_;
    PathDynamics dynamics_;
};

// How much of the acceleration an arc may use towards its centre: as much is then left along it, so that neither
// together ever asks for more of an axis than it has.
inline constexpr double kTowardsCentre = 0.70710678118654752;  // 1 / sqrt(2)

// The same with the pace at both ends, negative where speeds change at once. Between the changes of speed the law of
// pace holds exactly.
class FeedRun {
public:
    FeedRun(const FeedPath& path, double paceFrom, double paceTo);

    double seconds() const { return gaining_ + running_ + losing_; }
    double fractionAfter(double time) const;
    double paceAfter(double time) const;
    // The inverse of fractionAfter(), 0 <= fraction <= 1.
    double secondsTo(double fraction) const;
    // Parts of the length at which speed has been gained and begins to be lost; 0 and 1 where speeds change at once.
    double gainedAt() const;
    double losesAt() const;

private:
    double meetLaw(double from, bool atEnd) const;

    const FeedPath& path_;
    double from_, to_;
    bool plain_ = false;   // the law alone
    bool simple_ = false;  // one greatest pace: profile_
    SpeedProfile profile_;
    double paceGained_ = 0, paceLost_ = 0;  // where the law is met and left
    double gained_ = 0, left_ = 0;          // parts of the length there
    double gaining_ = 0, running_ = 0, losing_ = 0;
};

// What a timed move at feed runs with at an instant of it, mm/s along the path; threads, which go with the spindle,
// not.
double feedPaceAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double timeS);

}  // namespace firstoff
