#include "sim/motion/feed_run.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

PathDynamics alongStraight(Point direction, const AxisDynamics& axes) {
    PathDynamics d;
    if (!axes.known()) return d;
    const double z = std::abs(direction.z), r = std::abs(direction.r);
    // Whichever axis has to gain most for its strength; one that does not move asks for nothing.
    const double asked = std::max(z / axes.accelerationZ, r / axes.accelerationR);
    d.acceleration = asked > 0 ? 1 / asked : std::min(axes.accelerationZ, axes.accelerationR);
    if (axes.jerkZ > 0 && axes.jerkR > 0 && asked > 0) {
        d.jerk = 1 / std::max(z / axes.jerkZ, r / axes.jerkR);
    }
    return d;
}

Point unit(Point p) {
    const double l = length(p);
    return l > 0 ? (1 / l) * p : Point{};
}

}  // namespace

FeedPath::FeedPath(const TimedMove& timed, Point shift, PaceLaw pace, const AxisDynamics& axes)
    : isArc_(timed.kind == MoveKind::ArcClockwise || timed.kind == MoveKind::ArcAnticlockwise), pace_(pace) {
    if (!isArc_) {
        length_ = distance(timed.from, timed.to);
        straight_ = {timed.from.r + shift.r, timed.to.r + shift.r, length_};
        direction_ = unit(timed.to - timed.from);
        dynamics_ = alongStraight(direction_, axes);
        return;
    }
    arc_ = arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
    centreRadius_ = timed.centre.r + shift.r;
    length_ = arc_.length();
    if (!axes.known() || length_ <= 0) return;
    const double a = std::min(axes.accelerationZ, axes.accelerationR);
    pace_.flat = std::min(pace_.flat, std::sqrt(kTowardsCentre * a * arc_.radius()));
    const double towardsCentre = pace_.flat * pace_.flat / arc_.radius();
    dynamics_.acceleration = std::sqrt(a * a - towardsCentre * towardsCentre);
    if (axes.jerkZ > 0 && axes.jerkR > 0) dynamics_.jerk = std::min(axes.jerkZ, axes.jerkR);
}

double FeedPath::radiusAt(double fraction) const {
    if (isArc_) return centreRadius_ + arc_.radius() * std::sin(arc_.angleFrom + arc_.turn * fraction);
    return straight_.radiusFrom + (straight_.radiusTo - straight_.radiusFrom) * fraction;
}

double FeedPath::paceAt(double fraction) const {
    return std::isinf(pace_.hyperbola) ? pace_.flat : pace_.at(radiusAt(fraction));
}

Point FeedPath::directionAtStart() const {
    if (!isArc_) return direction_;
    const double sign = arc_.turn < 0 ? -1 : 1;
    return {-sign * std::sin(arc_.angleFrom), sign * std::cos(arc_.angleFrom)};
}

Point FeedPath::directionAtEnd() const {
    if (!isArc_) return direction_;
    const double sign = arc_.turn < 0 ? -1 : 1, angle = arc_.angleFrom + arc_.turn;
    return {-sign * std::sin(angle), sign * std::cos(angle)};
}

Arc FeedPath::arcBetweenParts(double from, double to) const {
    Arc part = arc_;
    part.radiusFrom = part.radiusTo = arc_.radius();
    part.angleFrom = arc_.angleFrom + arc_.turn * from;
    part.turn = arc_.turn * (to - from);
    return part;
}

double FeedPath::seconds(double from, double to) const {
    if (to <= from || length_ <= 0) return 0;
    const bool whole = from <= 0 && to >= 1;
    if (isArc_) return firstoff::seconds(whole ? arc_ : arcBetweenParts(from, to), centreRadius_, pace_);
    if (whole) return firstoff::seconds(straight_, pace_);
    return firstoff::seconds({radiusAt(from), radiusAt(to), straight_.length * (to - from)}, pace_);
}

double FeedPath::fractionAfter(double from, double time) const {
    if (length_ <= 0 || from >= 1) return 1;
    if (from <= 0) {
        return isArc_ ? firstoff::fractionAfter(arc_, centreRadius_, pace_, time)
                      : firstoff::fractionAfter(straight_, pace_, time);
    }
    const double part = isArc_ ? firstoff::fractionAfter(arcBetweenParts(from, 1), centreRadius_, pace_, time)
                               : firstoff::fractionAfter(
                                     {radiusAt(from), straight_.radiusTo, straight_.length * (1 - from)}, pace_, time);
    return from + (1 - from) * part;
}

double FeedPath::nearestRadius() const {
    if (isArc_) return smallestRadius(arc_, centreRadius_);
    if (straight_.radiusFrom * straight_.radiusTo <= 0) return 0;
    return std::min(std::abs(straight_.radiusFrom), std::abs(straight_.radiusTo));
}

FeedRun::FeedRun(const FeedPath& path, double paceFrom, double paceTo)
    : path_(path), from_(paceFrom), to_(paceTo), profile_(0, 0, 0, 0, {}) {
    const double length = path.length();
    const PathDynamics& dynamics = path.dynamics();
    plain_ = paceFrom < 0 || paceTo < 0 || !dynamics.known() || length <= 0;
    if (plain_) {
        running_ = path.seconds(0, 1);
        return;
    }
    simple_ = std::isinf(path.pace().hyperbola);
    if (!simple_) {
        paceGained_ = meetLaw(from_, false);
        paceLost_ = meetLaw(to_, true);
        gained_ = wayOfChange(from_, paceGained_, dynamics) / length;
        left_ = 1 - wayOfChange(paceLost_, to_, dynamics) / length;
        simple_ = gained_ > left_;
    }
    if (simple_) {
        profile_ = SpeedProfile(length, from_, to_, path.pace().flat, dynamics);
        // Too short to come upon the law; with jerk the change to a lower pace takes another way than the one that was
        // held against it, so that the peak is held against it once more.
        for (int i = 0; i < 3 && !std::isinf(path.pace().hyperbola); ++i) {
            const double gained = profile_.wayAfter(profile_.gained()) / length;
            const double loses = profile_.wayAfter(profile_.loses()) / length;
            const double most = std::min(path.paceAt(gained), path.paceAt(loses));
            if (profile_.peak() <= most) break;
            profile_ = SpeedProfile(length, from_, to_, most, dynamics);
        }
        running_ = profile_.seconds();
        return;
    }
    gaining_ = secondsOfChange(from_, paceGained_, dynamics);
    losing_ = secondsOfChange(paceLost_, to_, dynamics);
    running_ = path.seconds(gained_, left_);
}

// The pace at which a change from (or, seen backwards, to) the pace at an end comes upon the law. The law changes far
// more slowly than the slides, so that putting one into the other settles in a few steps; halving finds it in any case.
double FeedRun::meetLaw(double pace, bool atEnd) const {
    const auto law = [&](double v) {
        const double way = std::min(1.0, wayOfChange(pace, v, path_.dynamics()) / path_.length());
        return path_.paceAt(atEnd ? 1 - way : way);
    };
    double v = law(pace);
    // What a timed move holds of a pace is rounded down: it stands on the law already.
    constexpr double kRounding = 1.0 / (1 << 22);
    if (v * (1 - kRounding) <= pace) return pace;
    for (int i = 0; i < 8; ++i) {
        const double next = law(v);
        if (next <= pace) break;
        if (std::abs(next - v) <= 1e-14 * v) return next;
        v = next;
    }
    double low = pace, high = path_.pace().flat;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (law(middle) > middle ? low : high) = middle;
    }
    return low;
}

double FeedRun::fractionAfter(double time) const {
    if (plain_) return path_.fractionAfter(0, time);
    if (simple_) return std::clamp(profile_.wayAfter(time) / path_.length(), 0.0, 1.0);
    const PathDynamics& dynamics = path_.dynamics();
    if (time <= gaining_) return wayWithinChange(from_, paceGained_, dynamics, time) / path_.length();
    const double left = seconds() - time;
    if (left <= losing_) return 1 - wayWithinChange(to_, paceLost_, dynamics, std::max(0.0, left)) / path_.length();
    return std::min(left_, path_.fractionAfter(gained_, time - gaining_));
}

double FeedRun::paceAfter(double time) const {
    if (plain_) return path_.paceAt(fractionAfter(time));
    if (simple_) return profile_.paceAfter(time);
    const PathDynamics& dynamics = path_.dynamics();
    if (time <= gaining_) return paceWithinChange(from_, paceGained_, dynamics, time);
    const double left = seconds() - time;
    if (left <= losing_) return paceWithinChange(to_, paceLost_, dynamics, std::max(0.0, left));
    return path_.paceAt(fractionAfter(time));
}

double FeedRun::secondsTo(double fraction) const {
    if (fraction <= 0) return 0;
    if (fraction >= 1) return seconds();
    if (plain_) return path_.seconds(0, fraction);
    const double length = path_.length();
    if (simple_) return profile_.secondsTo(fraction * length);
    const PathDynamics& dynamics = path_.dynamics();
    if (fraction <= gained_) return secondsWithinChange(from_, paceGained_, dynamics, fraction * length);
    if (fraction >= left_) return seconds() - secondsWithinChange(to_, paceLost_, dynamics, (1 - fraction) * length);
    return gaining_ + path_.seconds(gained_, fraction);
}

double FeedRun::gainedAt() const {
    if (plain_) return 0;
    return simple_ ? std::min(1.0, profile_.wayAfter(profile_.gained()) / path_.length()) : gained_;
}

double FeedRun::losesAt() const {
    if (plain_) return 1;
    return simple_ ? std::min(1.0, profile_.wayAfter(profile_.loses()) / path_.length()) : left_;
}

double feedPaceAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double timeS) {
    const Move& move = toolpath.moves[timed.move];
    const ModalState& modal = toolpath.modals[move.modal];
    PaceLimits why;
    const FeedPath path(timed, toolpath.programmedShift(move),
                        paceLaw(move, modal, spindleLaw(move, modal, setup), setup, why), setup.machine.axes);
    return FeedRun(path, double{timed.paceFrom}, double{timed.paceTo})
        .paceAfter(std::clamp(timeS, timed.t0, timed.t1) - timed.t0);
}

}  // namespace firstoff
