// Threads: G32 (G33), G34.
//
// Common practice, no source, where nothing else is said:
//  - F is the lead, always per revolution, counted along the longer axis of the move (X on radius): up to 45° of taper
//    along Z, beyond that along X.
//  - Q is the spindle angle at which a thread starts, in thousandths of a degree; it holds for its own block only.
//  - A thread block behind a thread block goes on without waiting for the spindle: a chain is one run, and its later
//    Q words have no effect.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"
#include "sim/control/thread_lead.h"

namespace firstoff {

namespace {

constexpr double kIncrementsPerDegree = 1000;
// A start angle below this and written without a point was meant in degrees: nobody sets threads off by less.
constexpr double kLeastMeantIncrements = 1000;
// Pitches and leads nearer than this are the same: an inch thread written in mm with three figures.
constexpr double kSameLeadMm = 0.002;

double wayOf(Point from, Point to) {
    return std::max(std::abs(to.z - from.z), std::abs(to.r - from.r));
}

}  // namespace

// Whether F in this block is a lead.
bool Control::threads() const {
    const Code* code = orders_[CodeGroup::Motion];
    if (orders_.has(CodeGroup::OneShot, Order::ThreadingCycle)) return true;
    if (code == nullptr) return now_.modal.motion == 32 || now_.modal.motion == 34 || now_.modal.motion == 92;
    return code->order == Order::Thread || code->order == Order::ThreadOfVariableLead ||
           code->order == Order::ThreadingPass;
}

// The code of an order as this control numbers it.
std::string Control::codeText(Order order) const {
    const auto system = static_cast<std::size_t>(setup_.control.codeSystem);
    for (const CodeEntry& entry : codeTable()) {
        if (entry.order != order) continue;
        const int tenths = entry.number[entry.letter == 'G' ? system : 0];
        const std::string whole = fmt::format("{}{:02}", entry.letter, tenths / 10);
        return tenths % 10 == 0 ? whole : fmt::format("{}.{}", whole, tenths % 10);
    }
    return "";
}

void Control::threadMove(Order order) {
    const bool variable = order == Order::ThreadOfVariableLead;
    const std::string code = codeText(order);
    use(BlockWords::bits({'Q', 'E'}));
    if (variable) use(BlockWords::bit('K'));
    if (reading_ != Reading::Program) {
        remarks_.at(block(), {Severity::Stop,
                              "not-allowed-in-profile",
                              say("A thread ({}) cannot stand between the P and Q blocks of a cycle; it was "
                                  "taken as a feed move.",
                                  code),
                              tr("Cut the thread behind the cycle."),
                              {},
                              true});
        return moveAlong(newMove(MoveKind::Feed, target()));
    }
    leaveCompensation(tr("a thread"),
                      orders_[CodeGroup::Motion] != nullptr ? orders_[CodeGroup::Motion]->word : nullptr);
    settle();
    refuseCorner(tr("a thread"));
    const Point to = target();
    const auto lead = threadLead(code.c_str());
    if (!lead) return add(threadTo(to, {}));
    MoveExtra extra;
    extra.lead = *lead;
    const bool chained = !out_.moves.empty() && out_.moves.back().kind == MoveKind::Thread;
    extra.startAngle = startAngle(chained);
    if (variable) extra.leadChange = leadChange(*lead, wayOf(now_.position, to));
    if (!chained) checkThreadSpeed(*lead);
    checkThreadTool(*lead);
    add(threadTo(to, extra));
}

// A move to `to` with that lead, and what follows from it; without a lead a feed move.
Move Control::threadTo(Point to, const MoveExtra& extra) {
    const double way = wayOf(now_.position, to);
    Move move = newMove(extra.lead > 0 ? MoveKind::Thread : MoveKind::Feed, to);
    if (extra.lead > 0) {
        move.feed = extra.lead;
        move.extra = extraIndex(extra);
        const double turns = LeadLaw{extra.lead, extra.leadChange}.revolutions(way);
        threadEndAngle_ = extra.startAngle + 2 * kPi * (turns - std::floor(turns));
        if (threadEndAngle_ >= 2 * kPi) threadEndAngle_ -= 2 * kPi;
    }
    now_.position = to;
    return move;
}

// Of a cycle: behind another thread move of the same pass it goes on from where that ended.
Move Control::cycleThread(const CycleMove& planned, Point to) {
    MoveExtra extra;
    extra.lead = planned.lead;
    extra.threadDepth = planned.threadDepth;
    const bool chained = !out_.moves.empty() && out_.moves.back().kind == MoveKind::Thread;
    extra.startAngle = chained ? threadEndAngle_ : cycleStartAngle_;
    if (!planned.reversed) return threadTo(to, extra);
    const SpindleDirection forward = now_.modal.spindle;
    now_.modal.spindle = forward == SpindleDirection::Forward   ? SpindleDirection::Reverse
                         : forward == SpindleDirection::Reverse ? SpindleDirection::Forward
                                                                : SpindleDirection::Stopped;
    modalDirty_ = true;
    const Move move = threadTo(to, extra);
    now_.modal.spindle = forward;
    modalDirty_ = true;
    return move;
}

// Lead in mm: F of this block or of the thread before it, or E.
std::optional<double> Control::threadLead(const char* what) {
    if (words_.has('E')) {
        const auto lead = positive('E', tr("E, the lead,"));
        if (!lead) return std::nullopt;
        remarks_.at(block(), *words_.word('E'),
                    {Severity::Warning,
                     "lead-in-e",
                     say("{} was taken as the lead, {} mm per revolution; on some controls E counts threads to "
                         "the inch.",
                         program_.textOf(*words_.word('E')), figure(scale() * *lead)),
                     tr("Write the lead with F."),
                     {{"lead_mm", scale() * *lead}},
                     true});
        now_.modal.feed = scale() * *lead;
        now_.feedIsLead = true;
        now_.feedOfOtherMode = now_.feedChecked = false;
        modalDirty_ = true;
    }
    if (now_.modal.feed <= 0) {
        remarks_.at(block(), {Severity::Stop, "missing-feed",
                              say("{} has no F, the lead: the control would stop with an alarm.", what),
                              tr("Write the lead with F, mm (G20: inch) per revolution.")});
        return std::nullopt;
    }
    if (!now_.feedIsLead) {
        remarks_.at(block(), {Severity::Warning,
                              "lead-left-from-feed",
                              say("{} has no F: F{} of the feed move before it counts as its lead.", what,
                                  figure(now_.modal.feed / scale())),
                              tr("Write the lead with F."),
                              {{"lead_mm", now_.modal.feed}}});
    }
    return now_.modal.feed;
}

// K of a thread of variable lead; none if the lead would not last to its end.
double Control::leadChange(double lead, double way) {
    if (!words_.has('K')) {
        remarks_.at(block(),
                    {Severity::Stop, "missing-lead-change",
                     tr("G34 has no K, by which the lead changes with every revolution; it was cut with a constant "
                        "lead."),
                     tr("Write K, or G32 for a constant lead.")});
        return 0;
    }
    const LeadLaw law{lead, lengthOf('K')};
    if (law.lasts(way)) return law.change;
    const double reached = -lead * lead / (2 * law.change);
    remarks_.at(block(), *words_.word('K'),
                {Severity::Stop,
                 "thread-lead-runs-out",
                 say("The lead begins with {} mm and falls by {} mm with every revolution: it is used up after "
                     "{} of {} mm. A constant lead was cut.",
                     figure(lead), figure(-law.change), figure(reached), figure(way)),
                 tr("Correct K: its sign, or its decimal point."),
                 {{"lead_mm", lead}, {"change_mm", law.change}, {"reached_mm", reached}}});
    return 0;
}

double Control::startAngle(bool chained) {
    if (!words_.has('Q')) return chained ? threadEndAngle_ : 0;
    const Word& word = *words_.word('Q');
    if (chained) {
        remarks_.at(block(), word,
                    {Severity::Warning, "start-angle-in-chain",
                     say("{} has no effect: this thread goes on from the one before it without a new start.",
                         program_.textOf(word)),
                     tr("Write Q with the first block of the chain.")});
        return threadEndAngle_;
    }
    double angle = word.value / kIncrementsPerDegree;
    if (word.hasPoint) {
        angle = word.value;
        remarks_.at(
            block(), word,
            {Severity::Warning,
             "start-angle-with-point",
             say("{} has a decimal point, which many controls refuse; it was taken as degrees.", program_.textOf(word)),
             tr("Write thousandths of a degree without a point: Q180000 for 180 degrees."),
             {{"angle_deg", angle}},
             true});
    } else if (angle != 0 && word.value < kLeastMeantIncrements && word.value > 0) {
        remarks_.at(
            block(), word,
            {Severity::Warning,
             "start-angle-improbable",
             say("{} is a start angle of {} degrees: it counts thousandths.", program_.textOf(word), figure(angle)),
             say("Write Q{}000 if {} degrees were meant.", figure(word.value), figure(word.value)),
             {{"angle_deg", angle}}});
    }
    if (angle < 0 || angle > 360) {
        remarks_.at(
            block(), word,
            {Severity::Stop,
             "start-angle-out-of-range",
             say("{} is no angle between 0 and 360 degrees; the thread was started at 0.", program_.textOf(word)),
             tr("Write 0 to 360000, thousandths of a degree."),
             {{"angle_deg", angle}}});
        return 0;
    }
    return angle == 360 ? 0 : radians(angle);
}

// A thread needs the same fixed speed in all its passes: what the slide lags behind depends on it.
void Control::checkThreadSpeed(double lead) {
    if (now_.modal.constantSurfaceSpeed) {
        if (surfaceThreadSaid_ == surfaceSpeedOn_.block) return;
        surfaceThreadSaid_ = surfaceSpeedOn_.block;
        remarks_.at(block(), {Severity::Warning, "thread-at-surface-speed",
                              tr("A thread is cut under G96: the speed changes with X, from pass to pass or along the "
                                 "thread, and the passes do not meet."),
                              tr("Give G97 and a fixed speed before the thread.")});
        return;
    }
    const ThreadPass pass{static_cast<std::uint32_t>(now_.call), lead, workPosition().z, now_.modal.speed};
    const bool sameThread = pass.call == lastThread_.call && std::abs(pass.lead - lastThread_.lead) < kSameLeadMm &&
                            std::abs(pass.startZ - lastThread_.startZ) < tolerance::kTouchMm;
    if (sameThread && pass.speed != lastThread_.speed) {
        remarks_.at(block(), {Severity::Warning,
                              "thread-speed-changed",
                              say("The pass before was cut at S{}, this one at S{}: the slide follows the "
                                  "spindle with another lag and the passes do not meet.",
                                  figure(lastThread_.speed), figure(pass.speed)),
                              tr("Cut all passes of a thread at one speed."),
                              {{"before_rev_per_min", lastThread_.speed}, {"now_rev_per_min", pass.speed}}});
    }
    lastThread_ = pass;
}

// A tool made for one pitch cuts that pitch or, with several starts, a multiple of it as the lead.
void Control::checkThreadTool(double lead) {
    const Tool* tool = call().toolIndex >= 0 ? &setup_.tools[static_cast<std::size_t>(call().toolIndex)] : nullptr;
    if (tool == nullptr || tool->pitch <= 0) return;
    const bool tap = tool->kind == ToolKind::Tap;
    const double starts = tap ? 1 : std::max(1.0, std::round(lead / tool->pitch));
    if (std::abs(lead - starts * tool->pitch) <= kSameLeadMm * starts) return;
    remarks_.at(block(), words_.word('F'),
                {tap ? Severity::Stop : Severity::Warning,
                 tap ? "tap-lead-differs" : "thread-lead-differs",
                 tap ? say("The lead is {} mm per revolution, the tap of station {} has a pitch of {} mm.",
                           figure(lead), tool->station, figure(tool->pitch))
                     : say("The lead is {} mm per revolution, the insert of station {} has a pitch of {} mm.",
                           figure(lead), tool->station, figure(tool->pitch)),
                 tap ? tr("Make F the pitch of the tap; under feed per minute, S times the pitch.")
                     : tr("Correct F, or the pitch of the tool in the set-up."),
                 {{"lead_mm", lead}, {"pitch_mm", tool->pitch}}});
}

void Control::refuseCorner(const char* where) {
    const Word* corner = words_.cornerRadius() != nullptr ? words_.cornerRadius() : words_.cornerChamfer();
    if (corner == nullptr) return;
    use(BlockWords::kCommaC | BlockWords::kCommaR);
    remarks_.at(block(), *corner,
                {Severity::Stop, "corner-does-not-fit",
                 say("A corner cannot stand behind {}; it was left sharp.", where), tr("Take the corner out.")});
}

}  // namespace firstoff
