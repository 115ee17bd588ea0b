#include "sim/motion/motion_limits.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/motion/travel_time.h"

namespace firstoff {

namespace {

// Far below a control's least increment of 0.001 mm, above the rounding of sums of offsets.
constexpr double kTravelSlackMm = 1e-6;

BlockId blockOf(const Move& move) {
    return move.block != kNoBlock ? move.block : move.cycleBlock;
}

struct Extent {
    Range z;
    Range r;
};

bool isArc(const Move& move) {
    return move.kind == MoveKind::ArcClockwise || move.kind == MoveKind::ArcAnticlockwise;
}

Extent extentOf(const Move& move) {
    Extent extent{{std::min(move.from.z, move.to.z), std::max(move.from.z, move.to.z)},
                  {std::min(move.from.r, move.to.r), std::max(move.from.r, move.to.r)}};
    if (!isArc(move)) return extent;
    const Arc arc = arcBetween(move.from, move.to, move.centre, move.kind == MoveKind::ArcClockwise);
    for (int quarter = 0; quarter < 4; ++quarter) {
        double phi = std::copysign(1.0, arc.turn) * (quarter * kPi / 2 - arc.angleFrom);
        phi -= 2 * kPi * std::floor(phi / (2 * kPi));
        if (arc.turn == 0 || phi >= std::abs(arc.turn)) continue;
        const Point p = arc.at(phi / std::abs(arc.turn));
        extent.z = {std::min(extent.z.min, p.z), std::max(extent.z.max, p.z)};
        extent.r = {std::min(extent.r.min, p.r), std::max(extent.r.max, p.r)};
    }
    return extent;
}

}  // namespace

MotionLimits::MotionLimits(const Toolpath& toolpath, const Setup& setup, std::vector<Finding>& findings)
    : toolpath_(toolpath), setup_(setup), findings_(findings) {
    feedMissingSaid_ = std::any_of(toolpath.findings.begin(), toolpath.findings.end(),
                                   [](const Finding& f) { return f.code == "missing-feed"; });
}

Finding* MotionLimits::add(Topic topic, const Move& move, double timeS, Severity severity, const char* code) {
    const BlockId block = blockOf(move);
    const std::size_t slot = block == kNoBlock ? 0 : std::size_t{block} + 1;
    if (slot >= said_.size()) said_.resize(slot + 1);
    if (said_[slot] & topic) return nullptr;
    said_[slot] = static_cast<std::uint16_t>(said_[slot] | topic);
    Finding finding;
    finding.severity = severity;
    finding.code = code;
    if (block != kNoBlock) finding.span = {SourceSpan::File::Program, block + 1, 0, 0};
    finding.timeS = timeS;
    finding.place = move.to + toolpath_.tipShift(move);
    findings_.push_back(std::move(finding));
    return &findings_.back();
}

void MotionLimits::checkTravel(const Move& move, double timeS) {
    const Machine& m = setup_.machine;
    const Extent reached = extentOf(move);
    checkAxis(OverX, move, timeS, {2 * (reached.r.min - m.home.r), 2 * (reached.r.max - m.home.r)},
              {2 * (move.from.r - m.home.r), 0}, {2 * m.travelR.min, 2 * m.travelR.max});
    checkAxis(OverZ, move, timeS, {reached.z.min - m.home.z, reached.z.max - m.home.z}, {move.from.z - m.home.z, 0},
              m.travelZ);
}

// `before.min` holds where the axis stood at the start: what is beyond the limit already and does not get worse is not
// said again.
void MotionLimits::checkAxis(Topic topic, const Move& move, double timeS, Range reached, Range before, Range travel) {
    const double start = before.min;
    const bool under = reached.min < std::min(travel.min, start) - kTravelSlackMm;
    const bool over = reached.max > std::max(travel.max, start) + kTravelSlackMm;
    if (!under && !over) return;
    Finding* finding = add(topic, move, timeS, Severity::Stop, "over-travel");
    if (!finding) return;
    const char axis = topic == OverX ? 'X' : 'Z';
    const double end = under ? reached.min : reached.max;
    const double limit = under ? travel.min : travel.max;
    finding->message =
        say("{0} would go to {1:.3f} in machine coordinates{2}, {3:.3f} mm beyond the end of its "
            "travel at {4:.3f}.",
            axis, end, axis == 'X' ? tr(" (diameter)") : "", std::abs(end - limit), limit);
    finding->remedy = axis == 'X'
                          ? tr("Check the X word, the tool offset and how far the tool stands out.")
                          : tr("Check the Z word, the work offset, the tool offset and the stick-out of the bar.");
    finding->values = {{"machine_position_mm", end}, {"limit_mm", limit}, {"beyond_mm", std::abs(end - limit)}};
}

void MotionLimits::checkAskedSpeed(const Move& move, double timeS) {
    const ModalState& modal = toolpath_.modals[move.modal];
    const double most = setup_.machine.maxRevPerMin;
    const bool turning = modal.spindle != SpindleDirection::Stopped && !modal.constantSurfaceSpeed;
    const bool above = most > 0 && turning && modal.speed > most * (1 + 1e-9);
    const bool before = std::exchange(aboveMachineLimit_, above);
    if (!above || before) return;
    Finding* finding = add(MachineSpeed, move, timeS, Severity::Warning, "speed-above-machine-limit");
    if (!finding) return;
    finding->message =
        say("S{:g} asks for more than the machine's {:g} rev/min: some controls stop with an alarm; here it turned at "
            "{:g}.",
            modal.speed, most, most);
    finding->remedy = tr("Lower S, or write G96 if it was meant as surface speed.");
    finding->values = {{"asked_rev_per_min", modal.speed}, {"limit_rev_per_min", most}};
}

void MotionLimits::checkSpeed(const Move& move, double fastest, double timeS) {
    checkAskedSpeed(move, timeS);
    checkSecondChuck(move, fastest, timeS);
    const double allowed = setup_.chuck.maxRevPerMin;
    const bool above = allowed > 0 && fastest > allowed * (1 + 1e-9);
    const bool before = std::exchange(aboveChuckLimit_, above);
    if (!above || before) return;
    Finding* finding = add(ChuckSpeed, move, timeS, Severity::Stop, "speed-above-chuck-limit");
    if (!finding) return;
    finding->message =
        say("The spindle would turn {:.0f} rev/min here; the chuck is marked {:.0f} rev/min.", fastest, allowed);
    finding->remedy = toolpath_.modals[move.modal].constantSurfaceSpeed
                          ? tr("Clamp the speed with G50 S… at or below the chuck's figure before G96.")
                          : tr("Lower S to the chuck's figure or below.");
    finding->values = {{"rev_per_min", fastest}, {"chuck_limit_rev_per_min", allowed}};
}

void MotionLimits::follow(std::uint32_t index) {
    for (; event_ < toolpath_.machineEvents.size() && toolpath_.machineEvents[event_].duringMove <= index; ++event_) {
        switch (toolpath_.machineEvents[event_].action) {
            case MachineAction::SecondSpindleTurnsAlike:
                secondTurns_ = true;
                break;
            case MachineAction::SecondSpindleStop:
                secondTurns_ = false;
                break;
            case MachineAction::SecondSpindleGrip:
                secondGrips_ = true;
                break;
            case MachineAction::SecondSpindleRelease:
                secondGrips_ = false;
                break;
            default:
                break;
        }
    }
}

void MotionLimits::checkSecondChuck(const Move& move, double fastest, double timeS) {
    if (!setup_.secondSpindle) return;
    const double ofChuck = setup_.secondSpindle->chuck.maxRevPerMin, ofSpindle = setup_.secondSpindle->maxRevPerMin;
    const bool byChuck = ofChuck > 0 && (ofSpindle <= 0 || ofChuck <= ofSpindle);
    const double allowed = byChuck ? ofChuck : ofSpindle;
    const bool above = (secondTurns_ || secondGrips_) && allowed > 0 && fastest > allowed * (1 + 1e-9);
    const bool before = std::exchange(aboveSecondLimit_, above);
    if (!above || before) return;
    Finding* finding = add(SecondChuckSpeed, move, timeS, Severity::Stop, "speed-above-second-chuck-limit");
    if (!finding) return;
    finding->message =
        byChuck ? say("The second spindle would turn {:.0f} rev/min in step with the first; its chuck is marked {:.0f} "
                      "rev/min.",
                      fastest, allowed)
                : say("The second spindle would turn {:.0f} rev/min in step with the first; it goes up to {:.0f} "
                      "rev/min.",
                      fastest, allowed);
    finding->remedy = tr("Lower S, or clamp it with G50 S…, while both spindles turn together.");
    finding->values = {{"rev_per_min", fastest}, {"chuck_limit_rev_per_min", allowed}};
}

void MotionLimits::checkFeed(const Move& move, double fastest, const PaceLimits& limits, double timeS) {
    const double most = setup_.machine.maxFeedMmPerMin;
    if (limits.feedMissing) {
        if (feedMissingSaid_) return;
        Finding* finding = add(Missing, move, timeS, Severity::Stop, "missing-feed");
        if (!finding) return;
        finding->message = tr("A cutting move without a feed: F is 0 or was never given.");
        finding->remedy = tr("Give F in this block or before it.");
        return;
    }
    if (limits.spindleStopped) {
        // As an axis it stands, and the feed then is that of a driven tool; the control has said so.
        if (move.extra != kNoExtra && toolpath_.extras[move.extra].spindleIsAxis) return;
        Finding* finding = add(Stopped, move, timeS, Severity::Stop, "feed-per-rev-with-spindle-stopped");
        if (!finding) return;
        finding->message =
            tr("Feed per revolution with the spindle stopped: the machine would wait here for ever. The trial goes "
               "on as if this move ran at the largest feed.");
        finding->remedy = tr("Start the spindle (M03 or M04 with S) before this move, or use feed per minute (G98).");
        return;
    }
    const bool perRev = toolpath_.modals[move.modal].feedPerRev || move.kind == MoveKind::Thread;
    const double asked = perRev ? move.feed * fastest : move.feed;
    if (most <= 0 || asked <= most * (1 + 1e-9)) return;
    Finding* finding = add(Feed, move, timeS, Severity::Note, "feed-above-limit");
    if (!finding) return;
    finding->message =
        perRev ? say("F{:g} mm/rev at {:.0f} rev/min asks for {:.0f} mm/min; the machine's limit is {:.0f}, so it runs "
                     "at that.",
                     move.feed, fastest, asked, most)
               : say("F{:g} mm/min is above the machine's limit of {:.0f}; it runs at that.", move.feed, most);
    finding->remedy = tr("Leave it if it is a retract that the feed override is to govern; for a cut, lower F.");
    finding->values = {{"asked_mm_per_min", asked}, {"limit_mm_per_min", most}};
}

void MotionLimits::checkThread(const Move& move, double fastest, double timeS) {
    const double most = setup_.machine.maxFeedMmPerMin;
    if (most <= 0 || fastest <= most * (1 + 1e-9)) return;
    Finding* finding = add(Feed, move, timeS, Severity::Stop, "thread-above-feed-limit");
    if (!finding) return;
    finding->message =
        say("A lead of {:g} mm at this speed asks for {:.0f} mm/min, above the machine's limit of {:.0f}: the control "
            "stops with an alarm, or the slide falls behind and the lead comes out wrong.",
            move.feed, fastest, most);
    finding->remedy = say("Lower the speed to {:.0f} % of what it is, or less; see that F is the lead.",
                          std::floor(100 * most / fastest));
    finding->values = {{"asked_mm_per_min", fastest}, {"limit_mm_per_min", most}};
}

void MotionLimits::tellLag(const Move& move, const SurfaceSpeedLag& lag, double timeS) {
    Finding* finding = add(Lag, move, timeS, Severity::Note, "surface-speed-not-reached");
    if (!finding) return;
    const double asked = toolpath_.modals[move.modal].speed * setup_.overrides.spindle;
    const double reached = asked * lag.reachedShare;
    const double x = 2 * std::abs(lag.radius);
    finding->message =
        reached < asked ? say("Facing here asks the spindle for more gain of speed than its drive has: at X{:.1f} it "
                              "really cuts at {:.0f} m/min, not {:.0f}.",
                              x, reached, asked)
                        : say("Facing here asks the spindle for more loss of speed than its drive has: at X{:.1f} it "
                              "really cuts at {:.0f} m/min, not {:.0f}.",
                              x, reached, asked);
    constexpr double kWorthSayingS = 0.05;
    if (std::abs(lag.feedSeconds) >= kWorthSayingS) {
        const double off = std::abs(lag.feedSeconds);
        finding->message += lag.feedSeconds > 0 ? say(" For that the cycle time is {:.2f} s too short.", off)
                                                : say(" For that the cycle time is {:.2f} s too long.", off);
    }
    finding->remedy = tr("Clamp the speed lower with G50 S, or feed slower, where that surface speed matters.");
    finding->values = {{"asked_m_per_min", asked},
                       {"reached_m_per_min", reached},
                       {"x_mm", 2 * std::abs(lag.radius)},
                       {"longer_s", lag.feedSeconds}};
}

}  // namespace firstoff
