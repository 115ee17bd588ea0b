#include "sim/motion/timeline.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/motion/carrier_travels.h"
#include "sim/motion/feed_run.h"
#include "sim/motion/machine_pose.h"
#include "sim/motion/motion_limits.h"
#include "sim/motion/pace.h"
#include "sim/motion/path_paces.h"
#include "sim/motion/rapid_run.h"
#include "sim/motion/spindle_run_up.h"
#include "sim/motion/surface_speed_lag.h"
#include "sim/motion/thread_travel.h"
#include "sim/motion/travel_time.h"

namespace firstoff {

namespace {

bool isFeed(MoveKind kind) {
    return isArc(kind) || kind == MoveKind::Feed || kind == MoveKind::Thread;
}
bool isRapid(MoveKind kind) {
    return kind == MoveKind::Rapid || kind == MoveKind::Home;
}

// Below this a difference of speed is rounding and not waited for, s.
constexpr double kNoWait = 1e-5;

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

// What an index takes beside the time to the next station.
double secondsPastNextStation(const Toolpath& toolpath, const Setup& setup, const Move& move) {
    const double each = setup.machine.times.nextStationS;
    if (move.kind != MoveKind::Index || each <= 0) return 0;
    const auto swing = swingOfCall(toolpath, setup, move.call);
    return swing ? each * std::max(0.0, std::abs(swing->to - swing->from) - 1) : 0;
}

class Layout {
public:
    Layout(const Toolpath& toolpath, const Setup& setup)
        : toolpath_(toolpath),
          setup_(setup),
          limits_(toolpath, setup, timeline_.findings),
          carriers_(toolpath, setup, timeline_),
          drive_(setup),
          holds_(heldFeeds(toolpath, setup)),
          paces_(pacesAtEnds(toolpath, setup, holds_)) {}

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
        const ModalState& modal = toolpath_.modals[move.modal];
        spindle_ = spindleLaw(move, modal, setup_);
        turnsBackwards_ = modal.spindle == SpindleDirection::Reverse;
        shift_ = toolpath_.programmedShift(move);
        for (; hold_ < holds_.size() && holds_[hold_].beforeMove == index; ++hold_) {
            stand(index, move, holds_[hold_].seconds).wait = TimedMove::Wait::FeedHold;
        }
        if (isFeed(move.kind) || acts(index)) waitForSpindle(index, move);
        limits_.follow(index);
        limits_.checkTravel(move, clock_);
        if (isFeed(move.kind)) {
            layFeed(index, move);
        } else {
            limits_.checkSpeed(move, std::max(speedAt(move.from), speedAt(move.to)), clock_);
            if (isRapid(move.kind)) {
                layRapid(index, move);
            } else {
                TimedMove& timed = append(index, move.kind, move.from, move.to);
                last(timed, move.seconds + secondsPastNextStation(toolpath_, setup_, move), move.to);
                carriers_.follow(index);
            }
        }
    }

    double speedAt(Point position) const { return spindle_.revPerMinAt(position.r + shift_.r); }

    // Whether tailstock, chuck or second spindle act during this move.
    bool acts(std::uint32_t index) {
        bool result = false;
        for (; event_ < toolpath_.machineEvents.size() && toolpath_.machineEvents[event_].duringMove <= index;
             ++event_) {
            result = true;
        }
        return result;
    }

    TimedMove& append(std::uint32_t index, MoveKind kind, Point from, Point to) {
        TimedMove& timed = timeline_.moves.emplace_back();
        timed.from = from;
        timed.to = to;
        timed.t0 = timed.t1 = clock_;
        timed.rpmStart = speedAt(from);
        timed.rpmEnd = speedAt(to);
        timed.move = index;
        timed.kind = kind;
        return timed;
    }

    // Lets time pass with a timed move at whose end the spindle is to have the speed of that place; it goes there as
    // fast as its drive lets it.
    void last(TimedMove& timed, double seconds, Point place) {
        clock_ += seconds;
        timed.t1 = clock_;
        if (!drive_.known()) return;
        const double goal = spindleAt(place);
        timed.rpmStart = drive_.revPerMinAfter(std::abs(turned_));
        turned_ = goal > turned_ ? std::min(goal, turned_ + seconds) : std::max(goal, turned_ - seconds);
        timed.rpmEnd = turned_ == goal ? speedAt(place) : drive_.revPerMinAfter(std::abs(turned_));
    }

    // A stretch of a move without way.
    TimedMove& stand(std::uint32_t index, const Move& move, double seconds) {
        TimedMove& timed = append(index, MoveKind::Dwell, move.from, move.from);
        last(timed, seconds, move.from);
        return timed;
    }

    // The speed of a place told in seconds of run-up, backwards negative.
    double spindleAt(Point position) const {
        const double seconds = drive_.secondsTo(speedAt(position));
        return turnsBackwards_ ? -seconds : seconds;
    }

    // Through standing still in two stretches, so that each has one way of turning.
    void waitForSpindle(std::uint32_t index, const Move& move) {
        if (!drive_.known()) return;
        const double goal = spindleAt(move.from);
        if (!setup_.machine.spindle.waitsForSpeed || std::abs(goal - turned_) <= kNoWait) {
            turned_ = goal;
            return;
        }
        if (goal * turned_ < 0) waitUntil(index, move, 0);
        waitUntil(index, move, goal);
    }

    void waitUntil(std::uint32_t index, const Move& move, double goal) {
        TimedMove& timed = append(index, MoveKind::Dwell, move.from, move.from);
        timed.wait = TimedMove::Wait::SpindleSpeed;
        timed.rpmStart = drive_.revPerMinAfter(std::abs(turned_));
        timed.rpmEnd = goal == 0 ? 0 : speedAt(move.from);
        clock_ += std::abs(goal - turned_);
        timed.t1 = clock_;
        turned_ = goal;
    }

    // At feed the spindle has the speed asked for all along.
    void followed(const Move& move) {
        if (drive_.known()) turned_ = spindleAt(move.to);
    }

    void layThread(std::uint32_t index, const Move& move) {
        TimedMove& timed = append(index, move.kind, move.from, move.to);
        const ThreadTravel travel = threadOf(timed, toolpath_.extras[move.extra], spindle_, shift_);
        limits_.checkSpeed(move, std::max(timed.rpmStart, timed.rpmEnd), clock_);
        const double slant = travel.way > 0 ? distance(timed.from, timed.to) / travel.way : 1;
        limits_.checkThread(move, slant * fastestMmPerMin(travel), clock_);
        pass(timed, seconds(travel));
        followed(move);
    }

    void pass(TimedMove& timed, double seconds) {
        clock_ += seconds;
        timed.t1 = clock_;
        timeline_.feedTimeS += seconds;
    }

    void layFeed(std::uint32_t index, const Move& move) {
        if (threadTurns(move, toolpath_, spindle_)) return layThread(index, move);
        PaceLimits why;
        const PaceLaw pace = paceLaw(move, toolpath_.modals[move.modal], spindle_, setup_, why);
        TimedMove& timed = append(index, move.kind, move.from, move.to);
        timed.centre = move.centre;
        const FeedPath path(timed, shift_, pace, setup_.machine.axes);
        if (!paces_.empty() && move.kind != MoveKind::Thread) {
            timed.paceFrom = index > 0 ? paces_[index - 1] : 0;
            timed.paceTo = paces_[index];
        }
        const double fastest =
            spindle_.revPerMinAt(spindle_.hyperbola > 0 || !isArc(move.kind) ? path.nearestRadius() : 0);
        limits_.checkSpeed(move, fastest, clock_);
        limits_.checkFeed(move, fastest, why, clock_);
        if (drive_.known() && spindle_.hyperbola > 0) {
            if (const auto lag = surfaceSpeedLag(path, spindle_, drive_)) {
                limits_.tellLag(move, *lag, clock_);
                timeline_.lagS += lag->feedSeconds;
            }
        }
        pass(timed, FeedRun(path, timed.paceFrom, timed.paceTo).seconds());
        followed(move);
    }

    // Each axis at its own rapid from the same moment: both run until the one is there, then the other goes on.
    void layRapid(std::uint32_t index, const Move& move) {
        const RapidRun run(move.from, move.to, setup_);
        const bool changes = setup_.machine.axes.known();
        if (!run.hasElbow()) {
            TimedMove& timed = append(index, move.kind, move.from, move.to);
            if (changes) {
                timed.paceFrom = timed.paceTo = 0;
            }
            last(timed, run.seconds(), move.to);
            return;
        }
        RapidRun::Bend before{0, move.from, 0};
        for (const RapidRun::Bend& bend : run.bends()) {
            TimedMove& timed = append(index, move.kind, before.place, bend.place);
            if (changes) {
                timed.paceFrom = static_cast<float>(before.pace);
                timed.paceTo = static_cast<float>(bend.pace);
            }
            last(timed, bend.time - before.time, move.to);
            before = bend;
        }
        if (run.elbow() == move.to) return;
        TimedMove& alone = append(index, move.kind, run.elbow(), move.to);
        if (changes) {
            alone.paceFrom = static_cast<float>(run.paceBehindElbow());
            alone.paceTo = 0;
        }
        last(alone, run.seconds() - run.elbowSeconds(), move.to);
    }

    const Toolpath& toolpath_;
    const Setup& setup_;
    Timeline timeline_;
    MotionLimits limits_;
    CarrierTravels carriers_;
    SpindleRunUp drive_;
    std::vector<HeldFeed> holds_;
    std::vector<float> paces_;
    std::size_t hold_ = 0, event_ = 0;
    double clock_ = 0;
    double turned_ = 0;  // the spindle's speed told in seconds of run-up, backwards negative
    // Of the move being laid.
    SpindleLaw spindle_;
    bool turnsBackwards_ = false;
    Point shift_;
};

}  // namespace

std::size_t Timeline::at(double timeS) const {
    assert(!moves.empty());
    const auto after = std::upper_bound(moves.begin(), moves.end(), timeS,
                                        [](double t, const TimedMove& timed) { return t < timed.t0; });
    return after == moves.begin() ? 0 : static_cast<std::size_t>(after - moves.begin()) - 1;
}

std::uint32_t Timeline::workOf(std::uint32_t move) const {
    std::uint32_t first = firstOf[move];
    while (first + 1 < firstOf[move + 1] && moves[first].wait != TimedMove::Wait::None) ++first;
    return first;
}

Timeline layOut(const Toolpath& toolpath, const Setup& setup) {
    return Layout(toolpath, setup).run();
}

namespace {

// A stretch of a dog-leg before its elbow is short enough for its pace to change evenly.
double fractionOfRapid(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double time) {
    const double lasts = timed.t1 - timed.t0;
    if (timed.paceFrom < 0) return time / lasts;
    const Move& move = toolpath.moves[timed.move];
    const RapidRun run(move.from, move.to, setup);
    if (!run.hasElbow()) return run.fractionOfAll(time);
    if (timed.from == run.elbow()) return run.fractionBehindElbow(time);
    const double from = static_cast<double>(timed.paceFrom), to = static_cast<double>(timed.paceTo);
    return from + to > 0 ? std::min(1.0, time / lasts * (2 * from + (to - from) * time / lasts) / (from + to))
                         : time / lasts;
}

}  // namespace

double fractionAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double timeS) {
    if (timeS >= timed.t1) return 1;
    if (timeS <= timed.t0) return 0;
    const double time = timeS - timed.t0;
    if (isRapid(timed.kind)) return fractionOfRapid(timed, toolpath, setup, time);
    if (!isFeed(timed.kind)) return time / (timed.t1 - timed.t0);
    const Move& move = toolpath.moves[timed.move];
    const ModalState& modal = toolpath.modals[move.modal];
    const SpindleLaw spindle = spindleLaw(move, modal, setup);
    const Point shift = toolpath.programmedShift(move);
    if (threadTurns(move, toolpath, spindle)) {
        return fractionAfter(threadOf(timed, toolpath.extras[move.extra], spindle, shift), time);
    }
    PaceLimits why;
    const FeedPath path(timed, shift, paceLaw(move, modal, spindle, setup, why), setup.machine.axes);
    return FeedRun(path, timed.paceFrom, timed.paceTo).fractionAfter(time);
}

Point pointAt(const TimedMove& timed, double fraction) {
    if (fraction <= 0) return timed.from;
    if (fraction >= 1) return timed.to;
    if (isArc(timed.kind)) {
        return arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise).at(fraction);
    }
    return timed.from + fraction * (timed.to - timed.from);
}

double timeAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double fraction) {
    if (fraction <= 0) return timed.t0;
    if (fraction >= 1) return timed.t1;
    double before = timed.t0, after = timed.t1;
    for (int i = 0; i < 60; ++i) {
        const double middle = (before + after) / 2;
        (fractionAt(timed, toolpath, setup, middle) < fraction ? before : after) = middle;
    }
    return before;
}

double revPerMinAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double fraction) {
    const SpindleRunUp drive(setup);
    const Move& move = toolpath.moves[timed.move];
    if (isFeed(timed.kind) || !drive.known()) {
        const SpindleLaw spindle = spindleLaw(move, toolpath.modals[move.modal], setup);
        return spindle.revPerMinAt(pointAt(timed, fraction).r + toolpath.programmedShift(move).r);
    }
    // It goes on by a second each second until it is where it ends.
    const double passed = timeAt(timed, toolpath, setup, fraction) - timed.t0;
    const double from = drive.secondsTo(timed.rpmStart), to = drive.secondsTo(timed.rpmEnd);
    const double now = to > from ? std::min(to, from + passed) : std::max(to, from - passed);
    return now == to ? timed.rpmEnd : drive.revPerMinAfter(now);
}

}  // namespace firstoff
