#include "sim/motion/timeline.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/motion/carrier_travels.h"
#include "sim/motion/motion_limits.h"
#include "sim/motion/pace.h"
#include "sim/motion/thread_travel.h"
#include "sim/motion/travel_time.h"

namespace firstoff {

namespace {

bool isArc(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}
bool isFeed(MoveKind kind) {
    return isArc(kind) || kind == MoveKind::Feed || kind == MoveKind::Thread;
}
bool isRapid(MoveKind kind) {
    return kind == MoveKind::Rapid || kind == MoveKind::Home;
}

Arc arcOf(const TimedMove& timed) {
    return arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
}

StraightTravel straightOf(const TimedMove& timed, Point shift) {
    return {timed.from.r + shift.r, timed.to.r + shift.r, distance(timed.from, timed.to)};
}

bool threadTurns(const Move& move, const Toolpath& toolpath, const SpindleLaw& spindle) {
    return move.kind == MoveKind::Thread && move.extra < toolpath.extras.size() &&
           toolpath.extras[move.extra].lead > 0 && spindle.limit > 0;
}

ThreadTravel threadOf(const TimedMove& timed, const MoveExtra& extra, const SpindleLaw& spindle, Point shift) {
    const Point way = timed.to - timed.from;
    return {timed.from.r + shift.r,
            timed.to.r + shift.r,
            std::max(std::abs(way.z), std::abs(way.r)),
            {extra.lead, extra.leadChange},
            spindle};
}

// A rate of 0 comes only from a set-up put together by hand.
double secondsAt(double millimetres, double mmPerMin) {
    return mmPerMin > 0 ? std::abs(millimetres) / mmPerMin * 60 : 0;
}

class Layout {
public:
    Layout(const Toolpath& toolpath, const Setup& setup)
        : toolpath_(toolpath),
          setup_(setup),
          limits_(toolpath, setup, timeline_.findings),
          carriers_(toolpath, setup, timeline_) {}

    Timeline run() {
        timeline_.moves.reserve(toolpath_.moves.size() + toolpath_.moves.size() / 8);
        timeline_.firstOf.reserve(toolpath_.moves.size() + 1);
        for (std::uint32_t i = 0; i < toolpath_.moves.size(); ++i) lay(i);
        timeline_.firstOf.push_back(static_cast<std::uint32_t>(timeline_.moves.size()));
        timeline_.cycleTimeS = clock_;
        return std::move(timeline_);
    }

private:
    void lay(std::uint32_t index) {
        const Move& move = toolpath_.moves[index];
        timeline_.firstOf.push_back(static_cast<std::uint32_t>(timeline_.moves.size()));
        spindle_ = spindleLaw(toolpath_.modals[move.modal], setup_.machine);
        shift_ = toolpath_.programmedShift(move);
        limits_.follow(index);
        limits_.checkTravel(move, clock_);
        if (isFeed(move.kind)) {
            layFeed(index, move);
        } else {
            limits_.checkSpeed(move, std::max(speedAt(move.from), speedAt(move.to)), clock_);
            if (isRapid(move.kind)) {
                layRapid(index, move);
            } else {
                append(index, move.kind, move.from, move.to, move.seconds);
                carriers_.follow(index);
            }
        }
    }

    double speedAt(Point position) const { return spindle_.revPerMinAt(position.r + shift_.r); }

    TimedMove& append(std::uint32_t index, MoveKind kind, Point from, Point to, double duration) {
        TimedMove& timed = timeline_.moves.emplace_back();
        timed.from = from;
        timed.to = to;
        timed.t0 = clock_;
        clock_ += duration;
        timed.t1 = clock_;
        timed.rpmStart = speedAt(from);
        timed.rpmEnd = speedAt(to);
        timed.move = index;
        timed.kind = kind;
        return timed;
    }

    void layThread(std::uint32_t index, const Move& move) {
        TimedMove& timed = append(index, move.kind, move.from, move.to, 0);
        const ThreadTravel travel = threadOf(timed, toolpath_.extras[move.extra], spindle_, shift_);
        limits_.checkSpeed(move, std::max(timed.rpmStart, timed.rpmEnd), clock_);
        const double slant = travel.way > 0 ? distance(timed.from, timed.to) / travel.way : 1;
        limits_.checkThread(move, slant * fastestMmPerMin(travel), clock_);
        const double lasts = seconds(travel);
        clock_ += lasts;
        timed.t1 = clock_;
        timeline_.feedTimeS += lasts;
    }

    void layFeed(std::uint32_t index, const Move& move) {
        if (threadTurns(move, toolpath_, spindle_)) return layThread(index, move);
        PaceLimits why;
        const PaceLaw pace = paceLaw(move, toolpath_.modals[move.modal], spindle_, setup_.machine, why);
        TimedMove& timed = append(index, move.kind, move.from, move.to, 0);
        timed.centre = move.centre;
        double nearest = 0;
        double lasts = 0;
        if (isArc(move.kind)) {
            const Arc arc = arcOf(timed);
            const double centreRadius = move.centre.r + shift_.r;
            lasts = seconds(arc, centreRadius, pace);
            nearest = spindle_.hyperbola > 0 ? smallestRadius(arc, centreRadius) : 0;
        } else {
            const StraightTravel travel = straightOf(timed, shift_);
            lasts = seconds(travel, pace);
            if (travel.radiusFrom * travel.radiusTo > 0) {
                nearest = std::min(std::abs(travel.radiusFrom), std::abs(travel.radiusTo));
            }
        }
        const double fastest = spindle_.revPerMinAt(nearest);
        limits_.checkSpeed(move, fastest, clock_);
        limits_.checkFeed(move, fastest, why, clock_);
        clock_ += lasts;
        timed.t1 = clock_;
        timeline_.feedTimeS += lasts;
    }

    // Each axis at its own rapid from the same moment: both run until the nearer one is there, then the other goes on.
    void layRapid(std::uint32_t index, const Move& move) {
        const Point way = move.to - move.from;
        const double secondsZ = secondsAt(way.z, setup_.machine.rapidZMmPerMin);
        const double secondsR = secondsAt(way.r, setup_.machine.rapidRMmPerMin);
        const double shorter = std::min(secondsZ, secondsR);
        const double longer = std::max(secondsZ, secondsR);
        if (!setup_.machine.rapidPerAxis || shorter <= 0 || shorter == longer) {
            append(index, move.kind, move.from, move.to, longer);
            return;
        }
        const double part = shorter / longer;
        const Point elbow = secondsZ < secondsR ? Point{move.to.z, move.from.r + part * way.r}
                                                : Point{move.from.z + part * way.z, move.to.r};
        append(index, move.kind, move.from, elbow, shorter);
        append(index, move.kind, elbow, move.to, longer - shorter);
    }

    const Toolpath& toolpath_;
    const Setup& setup_;
    Timeline timeline_;
    MotionLimits limits_;
    CarrierTravels carriers_;
    double clock_ = 0;
    // Of the move being laid.
    SpindleLaw spindle_;
    Point shift_;
};

}  // namespace

std::size_t Timeline::at(double timeS) const {
    assert(!moves.empty());
    const auto after = std::upper_bound(moves.begin(), moves.end(), timeS,
                                        [](double t, const TimedMove& timed) { return t < timed.t0; });
    return after == moves.begin() ? 0 : static_cast<std::size_t>(after - moves.begin()) - 1;
}

Timeline layOut(const Toolpath& toolpath, const Setup& setup) {
    return Layout(toolpath, setup).run();
}

double fractionAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double timeS) {
    if (timeS >= timed.t1) return 1;
    if (timeS <= timed.t0) return 0;
    const double time = timeS - timed.t0;
    if (!isFeed(timed.kind)) return time / (timed.t1 - timed.t0);
    const Move& move = toolpath.moves[timed.move];
    const ModalState& modal = toolpath.modals[move.modal];
    PaceLimits why;
    const SpindleLaw spindle = spindleLaw(modal, setup.machine);
    const PaceLaw pace = paceLaw(move, modal, spindle, setup.machine, why);
    const Point shift = toolpath.programmedShift(move);
    if (threadTurns(move, toolpath, spindle)) {
        return fractionAfter(threadOf(timed, toolpath.extras[move.extra], spindle, shift), time);
    }
    if (isArc(timed.kind)) return fractionAfter(arcOf(timed), timed.centre.r + shift.r, pace, time);
    return fractionAfter(straightOf(timed, shift), pace, time);
}

Point pointAt(const TimedMove& timed, double fraction) {
    if (fraction <= 0) return timed.from;
    if (fraction >= 1) return timed.to;
    if (isArc(timed.kind)) return arcOf(timed).at(fraction);
    return timed.from + fraction * (timed.to - timed.from);
}

double revPerMinAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double fraction) {
    const Move& move = toolpath.moves[timed.move];
    const SpindleLaw spindle = spindleLaw(toolpath.modals[move.modal], setup.machine);
    return spindle.revPerMinAt(pointAt(timed, fraction).r + toolpath.programmedShift(move).r);
}

}  // namespace firstoff
