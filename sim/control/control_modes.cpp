// Feed, speed, units, offsets of the work, dwell: what stands until it is changed.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr double kMetresPerFoot = 0.3048;
constexpr double kLongDwellS = 60;  // nothing on a lathe is waited for so long within a program
// How far back an equal modal state is looked for. Programs go to and fro between a few states, rapid and feed above
// all.
constexpr std::size_t kStatesLookedBack = 4;

}  // namespace

std::optional<double> Control::positive(char letter, const char* what) {
    const double value = words_.number(letter);
    use(BlockWords::bit(letter));
    if (value > 0) return value;
    remarks_.at(block(), *words_.word(letter),
                {Severity::Stop, "not-above-zero",
                 say("{} must be above zero, not {}; the word was left out.", what, figure(value)),
                 tr("Correct the figure or its sign.")});
    return std::nullopt;
}

void Control::applyUnits() {
    if (const Code* distance = orders_[CodeGroup::Distance]) now_.incremental = distance->order == Order::Incremental;
    if (orders_[CodeGroup::Units] == nullptr) return;
    const bool inches = orders_[CodeGroup::Units]->order == Order::Inches;
    if (inches == now_.modal.inches) return;
    now_.modal.inches = inches;
    now_.feedOfOtherUnits = now_.modal.feed > 0 && !now_.feedOfOtherUnits;
    now_.speedOfOtherUnits = now_.modal.constantSurfaceSpeed && now_.modal.speed > 0 && !now_.speedOfOtherUnits;
    now_.feedChecked = false;
    modalDirty_ = true;
}

void Control::applyFeed() {
    if (orders_[CodeGroup::FeedMode] != nullptr) {
        const bool perRev = orders_[CodeGroup::FeedMode]->order == Order::FeedPerRev;
        if (perRev != now_.modal.feedPerRev) {
            now_.modal.feedPerRev = perRev;
            now_.feedOfOtherMode = now_.modal.feed > 0;
            now_.feedChecked = false;
            modalDirty_ = true;
        }
    }
    if (!words_.has('F')) return;
    use(BlockWords::bit('F'));
    // Inside a profile F counts for the finish cut only.
    if (reading_ == Reading::ProfileShape) return;
    const double feed = scale() * words_.number('F');
    const bool isLead = threads();
    if (isLead != now_.feedIsLead) now_.feedChecked = false;
    now_.feedIsLead = isLead;
    if (feed > 0 && feed == now_.modal.feed && !now_.feedOfOtherMode && !now_.feedOfOtherUnits) return;
    if (!positive('F', tr("F, the feed,"))) return;
    now_.modal.feed = feed;
    now_.feedOfOtherMode = now_.feedOfOtherUnits = false;
    now_.feedChecked = false;
    modalDirty_ = true;
}

void Control::applySpeed() {
    const bool clamp = orders_.has(CodeGroup::OneShot, Order::CoordinateSetting);
    if (reading_ == Reading::ProfileShape) {
        use(BlockWords::bit('S'));
        return;
    }
    if (clamp) return applyClamp();
    if (orders_[CodeGroup::SpeedMode] != nullptr) changeSpeedMode();
    if (!words_.has('S')) return;
    use(BlockWords::bit('S'));
    // S0 stands the spindle still on some controls; here it is a speed that was not given.
    const double speed = words_.number('S');
    if (speed != 0 && !positive('S', tr("S, the speed,"))) return;
    now_.modal.speed = now_.modal.constantSurfaceSpeed && now_.modal.inches ? speed * kMetresPerFoot : speed;
    now_.speedGiven = speed > 0;
    now_.speedOfOtherUnits = false;
    modalDirty_ = true;
}

// G50 S: the speed above which surface speed does not drive the spindle.
void Control::applyClamp() {
    // With axis words it sets coordinates, which is done when the block's offsets are known.
    if (words_.hasAny(axes()) && !words_.has('S')) return;
    if (!words_.has('S')) {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Warning, "clamp-without-speed", tr("G50 has no S word: no speed clamp was set."),
                     tr("Write the highest spindle speed behind it, e.g. G50 S2500.")});
        return;
    }
    const auto limit = positive('S', tr("The speed clamp"));
    if (!limit) return;
    now_.modal.clampRevPerMin = *limit;
    now_.feedChecked = false;
    modalDirty_ = true;
}

void Control::changeSpeedMode() {
    const bool surface = orders_[CodeGroup::SpeedMode]->order == Order::SurfaceSpeed;
    if (surface) {
        surfaceSpeedOn_ = {block(), orders_[CodeGroup::SpeedMode]->word};
        now_.feedChecked = false;
    }
    if (surface == now_.modal.constantSurfaceSpeed) return;
    now_.modal.constantSurfaceSpeed = surface;
    modalDirty_ = true;
    if (words_.has('S') || now_.modal.speed == 0) return;
    // The spindle goes on at the speed it has: the one figure is turned into the other at the diameter of the moment.
    const double radius = std::max(std::abs(workPosition().r), 0.5);
    const double before = now_.modal.speed;
    double limit = setup_.machine.maxRevPerMin > 0 ? setup_.machine.maxRevPerMin : 1e9;
    if (now_.modal.clampRevPerMin > 0) limit = std::min(limit, now_.modal.clampRevPerMin);
    now_.modal.speed =
        surface ? surfaceSpeedMPerMin(before, radius) : std::min(firstoff::revPerMin(before, radius), limit);
    remarks_.at(
        block(), *orders_[CodeGroup::SpeedMode]->word,
        {Severity::Warning,
         "speed-mode-without-speed",
         say("{} has no S word. The {} in force was turned into {} at X{}; controls differ here.",
             surface ? "G96" : "G97",
             surface ? say("{} rev/min", figure(before)) : fmt::format("{} m/min", figure(before)),
             surface ? fmt::format("{} m/min", figure(now_.modal.speed)) : say("{} rev/min", figure(now_.modal.speed)),
             figure(2 * radius)),
         tr("Write the S word behind it."),
         {{"speed", now_.modal.speed}},
         true});
}

// G61 and G64 hold until the other one, G09 for its block.
void Control::applyPathMode() {
    const Code* code = orders_[CodeGroup::PathMode];
    if (code != nullptr && code->order != Order::ExactStopHere) now_.exactStop = code->order == Order::ExactStop;
    const bool stops = now_.exactStop || (code != nullptr && code->order == Order::ExactStopHere);
    if (stops == now_.modal.exactStop) return;
    now_.modal.exactStop = stops;
    modalDirty_ = true;
}

void Control::applySpindle() {
    if (reading_ == Reading::ProfileShape) return;
    if (const Code* code = orders_[CodeGroup::Spindle]) {
        turnSpindle(code->order == Order::SpindleForward   ? SpindleDirection::Forward
                    : code->order == Order::SpindleReverse ? SpindleDirection::Reverse
                                                           : SpindleDirection::Stopped,
                    *code->word);
    }
    if (orders_[CodeGroup::Coolant] != nullptr) {
        const bool on = orders_[CodeGroup::Coolant]->order == Order::CoolantOn;
        if (std::exchange(now_.modal.coolant, on) == on) return;
        modalDirty_ = true;
        waitForMachineCode(setup_.machine.times.coolantS, MachineAction::None);
    }
}

void Control::turnSpindle(SpindleDirection direction, const Word& word) {
    now_.modal.spindle = direction;
    modalDirty_ = true;
    if (direction == SpindleDirection::Stopped) return;
    now_.spindleAxis = {};
    if (now_.modal.speed != 0) return;
    remarks_.at(block(), word,
                {Severity::Warning, "spindle-code-without-speed",
                 say("{} starts the spindle, but no speed was given: S is 0.", program_.textOf(word)),
                 tr("Give G97 S or G96 S with it or before it.")});
}

void Control::dwell() {
    constexpr std::uint32_t kWords = BlockWords::bits({'X', 'U', 'P'});
    use(kWords);
    if (!words_.hasAny(kWords)) {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Warning, "dwell-without-time", tr("G04 has no time: nothing was waited for."),
                     tr("Write the seconds behind it, e.g. G04 X0.5, or milliseconds, G04 P500.")});
        return;
    }
    const char letter = words_.has('P') ? 'P' : words_.has('X') ? 'X' : 'U';
    if (reading_ == Reading::ProfileShape) return;
    if (letter == 'P') doubtDwellPoint(*words_.word('P'));
    const auto time = positive(letter, tr("The time of a dwell"));
    if (!time) return;
    Move move = newMove(MoveKind::Dwell, now_.position);
    const bool thousandths = letter == 'P' || countsIncrements(*words_.word(letter));
    move.seconds = thousandths ? *time / 1000 : *time;
    if (move.seconds > kLongDwellS) {
        remarks_.at(block(), *words_.word(letter),
                    {Severity::Warning,
                     "dwell-improbable",
                     say("{} waits for {} seconds; milliseconds may have been meant.",
                         program_.textOf(*words_.word(letter)), figure(move.seconds)),
                     tr("P counts milliseconds, X and U count seconds."),
                     {{"seconds", move.seconds}}});
    }
    add(move);
}

void Control::doubtDwellPoint(const Word& word) {
    if (!word.hasPoint) return;
    remarks_.at(block(), word,
                {Severity::Warning,
                 "dwell-with-point",
                 say("{} has a decimal point; controls differ whether it then counts seconds. It was taken as "
                     "milliseconds.",
                     program_.textOf(word)),
                 tr("Write whole milliseconds behind P, or seconds behind X."),
                 {},
                 true});
}

// What a feed move depends on, looked at again only when something of it changed.
void Control::checkFeed() {
    now_.feedChecked = true;
    if (reading_ == Reading::ProfileShape) return;
    if (now_.modal.feed == 0) {
        remarks_.at(block(), {Severity::Stop, "missing-feed",
                              tr("A move at feed, but no F word has been given: the control would stop with an alarm."),
                              say("Write F with this block ({}).",
                                  now_.modal.feedPerRev ? tr("mm per revolution, G99") : tr("mm per minute, G98"))});
    } else if (now_.feedOfOtherMode) {
        remarks_.at(block(), {Severity::Warning,
                              "feed-of-other-mode",
                              say("F{} was given before {}; it now counts as {}.", figure(now_.modal.feed),
                                  now_.modal.feedPerRev ? "G99" : "G98",
                                  now_.modal.feedPerRev ? tr("mm per revolution") : tr("mm per minute")),
                              tr("Write a new F word with the change of feed mode."),
                              {{"feed", now_.modal.feed}}});
        now_.feedOfOtherMode = false;
    }
    if (now_.feedIsLead && now_.modal.feed > 0) {
        remarks_.at(block(), {Severity::Warning,
                              "feed-left-from-thread",
                              say("A move at feed without an F of its own: F{} is still the lead of the thread "
                                  "before it, and counts as {} now.",
                                  figure(now_.modal.feed / scale()),
                                  now_.modal.feedPerRev ? tr("feed per revolution") : tr("feed per minute")),
                              tr("Write F with the first feed move behind a thread."),
                              {{"feed", now_.modal.feed}}});
    }
    checkUnitsOfFeed();
    const double most = setup_.machine.maxRevPerMin;
    const bool holdsNothing = most > 0 && now_.modal.clampRevPerMin > most;
    const bool unclamped = now_.modal.clampRevPerMin == 0 || holdsNothing;
    if (now_.modal.constantSurfaceSpeed && unclamped && surfaceSpeedOn_.word != nullptr) {
        remarks_.at(
            surfaceSpeedOn_.block, *surfaceSpeedOn_.word,
            {Severity::Warning,
             "no-speed-clamp",
             holdsNothing
                 ? say("G96 is cutting with a clamp of {} rev/min, which is above the machine's limit of {}: it "
                       "holds nothing back.",
                       figure(now_.modal.clampRevPerMin), figure(most))
                 : say("G96 is cutting without a speed clamp: towards the centre the spindle runs up to its "
                       "limit of {} rev/min.",
                       figure(most)),
             tr("Give G50 S with the highest speed the workholding allows, before G96."),
             {{"max_rev_per_min", most}}});
    }
}

// F and S that were given in inch or feet and are used in a metric block, or the other way round. Here they keep their
// meaning; many controls keep the figure.
void Control::checkUnitsOfFeed() {
    const double times = now_.modal.inches ? kMmPerInch : 1 / kMmPerInch;
    if (now_.feedOfOtherUnits && now_.modal.feed > 0) {
        const double figureBefore = now_.modal.inches ? now_.modal.feed : now_.modal.feed / kMmPerInch;
        remarks_.at(
            block(),
            {Severity::Warning,
             "feed-of-other-units",
             say("F{} was given in {} before {}; here it goes on as that feed. A control that keeps the "
                 "figure feeds {:.3g} times as much.",
                 figure(figureBefore), now_.modal.inches ? "mm" : tr("inch"), now_.modal.inches ? "G20" : "G21", times),
             tr("Write F anew behind the change of units."),
             {{"feed", figureBefore}}});
    }
    if (now_.speedOfOtherUnits && now_.modal.constantSurfaceSpeed) {
        remarks_.at(block(), {Severity::Warning,
                              "speed-of-other-units",
                              say("The surface speed of {} m/min was given before {}; here it goes on. A control that "
                                  "keeps the figure reads it as {}.",
                                  figure(now_.modal.speed), now_.modal.inches ? "G20" : "G21",
                                  now_.modal.inches ? tr("feet per minute") : tr("metres per minute")),
                              tr("Write S anew behind the change of units."),
                              {{"surface_speed_m_per_min", now_.modal.speed}}});
    }
    now_.feedOfOtherUnits = now_.speedOfOtherUnits = false;
}

// Whether it is known where programmed coordinates count from.
void Control::checkDatum() {
    now_.datumChecked = true;
    if (now_.modal.workOffset == 0 && !workOffsetGiven_[0]) {
        remarks_.at(block(),
                    {Severity::Warning,
                     "work-offset-not-given",
                     say("The set-up does not say where the datum of G54 is; it was taken at Z{} of the chuck face.",
                         figure(workOffsets_[0].z)),
                     tr("Enter this work offset in the set-up file."),
                     {},
                     true});
    }
    if (call().station == 0) {
        remarks_.at(block(),
                    {Severity::Warning,
                     "no-tool-called",
                     tr("The turret is moved to a programmed position before any tool was called: which offset then "
                        "counts is not known. The turret reference point was moved there."),
                     tr("Call a tool first, or go to the reference position with G28 U0 W0."),
                     {},
                     true});
    } else if (call().offset == 0 && setup_.control.offsetCancel == ControlOptions::OffsetCancel::NotSaid) {
        remarks_.at(
            block(),
            {Severity::Warning,
             "offset-cancelled",
             say("A move to a programmed position with the tool offset cancelled (T{:02}00). Some "
                 "controls then drop the whole tool length and shift the turret by it; here only the "
                 "wear was dropped.",
                 call().station),
             tr("Cancel the offset after the retract, retract with G28 or G53, or say offset_cancel in the set-up."),
             {},
             true});
    }
}

std::uint32_t Control::modalIndex() {
    if (!modalDirty_) return modalIndex_;
    modalDirty_ = false;
    if (writtenModal_ == now_.modal) return modalIndex_;
    writtenModal_ = now_.modal;
    const std::size_t count = out_.modals.size();
    for (std::size_t back = 1; back <= std::min(count, kStatesLookedBack); ++back) {
        if (out_.modals[count - back] == now_.modal) {
            modalIndex_ = static_cast<std::uint32_t>(count - back);
            return modalIndex_;
        }
    }
    out_.modals.push_back(now_.modal);
    modalIndex_ = static_cast<std::uint32_t>(count);
    return modalIndex_;
}

}  // namespace firstoff
