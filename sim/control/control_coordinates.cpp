// Where programmed coordinates count from: work offsets, shifts and what the program enters on the offset pages; and
// the reference positions. All by common practice, no source, from memory.
//
// The datum is the sum of: the work offset in force (G54 to G59, G54.1 P), the external one (G10 L2 P0), the local
// shift (G52) and the shift that G50 (G92 in code systems B and C) has set. G50 with X and Z says what the position
// display is to show where the turret stands; with U and W by how much more. Both shifts stand for all work offsets.
// Work offsets are entered (G10 L2, L20) in machine coordinates, like the travel; tool offsets in the sense of the
// set-up. What is entered counts from the next block on.
#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/control/control.h"
#include "sim/control/expression_values.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kAlongR = BlockWords::bits({'X', 'U'});
constexpr std::uint32_t kAlongZ = BlockWords::bits({'Z', 'W'});
constexpr std::uint32_t kEntry = BlockWords::bits({'L', 'P', 'X', 'Z', 'U', 'W', 'R', 'C', 'Q'});

constexpr int kGeometryFrom = 10000;  // P of G10: from here on geometry, below it wear
constexpr int kMostOffsets = 999;
constexpr double kLeastIncrementMm = 0.001;

enum WorkOffsetKind { kPlain = 2, kFurther = 20 };  // L of G10

}  // namespace

void Control::applyWorkOffset() {
    const Code* code = orders_[CodeGroup::WorkOffset];
    if (code == nullptr) return;
    int number = code->tenths / 10 - 54;
    if (code->order == Order::FurtherWorkOffset) {
        const auto further = furtherWorkOffset(*code);
        if (!further) return;
        number = *further;
    }
    if (!workOffsetGiven_[static_cast<std::size_t>(number)]) {
        remarks_.at(block(), *code->word,
                    {Severity::Warning,
                     "work-offset-not-given",
                     say("The set-up does not say where the datum of {} is; it was taken at Z{} of the chuck face.",
                         workOffsetName(number), figure(workOffsets_[static_cast<std::size_t>(number)].z)),
                     tr("Enter this work offset in the set-up file."),
                     {},
                     true});
    }
    if (number != now_.modal.workOffset && localShift_ != Point{}) {
        remarks_.at(block(), *code->word,
                    {Severity::Warning,
                     "local-shift-kept",
                     say("The local shift G52 {} goes on with {}; some controls drop it with another work "
                         "offset.",
                         place(localShift_), workOffsetName(number)),
                     tr("Take it back with G52 X0 Z0 first."),
                     {},
                     true});
    }
    now_.modal.workOffset = number;
    modalDirty_ = true;
    refreshDatum();
}

// G54.1 P: the number of the work offset as ModalState counts.
std::optional<int> Control::furtherWorkOffset(const Code& code) {
    use(BlockWords::bit('P'));
    const double wanted = words_.has('P') ? words_.number('P') : 0;
    const double whole = std::round(wanted);
    if (whole >= 1 && whole <= static_cast<double>(kFurtherWorkOffsets) && std::abs(wanted - whole) <= kWholeWithin)
        return 5 + static_cast<int>(whole);
    remarks_.at(block(), words_.has('P') ? words_.word('P') : code.word,
                {Severity::Stop, "no-such-work-offset",
                 say("G54.1 needs P1 to P{}; the work offset was left as it is.", kFurtherWorkOffsets),
                 tr("Correct the number.")});
    return std::nullopt;
}

void Control::refreshDatum() {
    constexpr std::size_t kLookedBack = 8;  // programs go to and fro between a few datums
    const Point wanted =
        workOffsets_[static_cast<std::size_t>(now_.modal.workOffset)] + externalOffset_ + localShift_ + shift_;
    if (wanted == datum()) return;
    std::vector<Point>& datums = out_.datums;
    std::size_t at = datums.size();
    for (std::size_t back = 1; back <= std::min(datums.size(), kLookedBack); ++back) {
        if (datums[datums.size() - back] == wanted) at = datums.size() - back;
    }
    if (at == datums.size()) datums.push_back(wanted);
    now_.modal.datum = static_cast<std::uint32_t>(at);
    modalDirty_ = true;
}

// G50, G92: what S means was done with the speeds.
void Control::coordinateSetting() {
    use(axes());
    if (!words_.hasAny(axes()) || words_.axesUnknown()) return;
    leaveCompensation(tr("a change of the coordinates (G50)"), orders_[CodeGroup::OneShot]->word);
    settle();
    const Point shown = workPosition();
    Point wanted = shown;
    entered(wanted.r, 'X', 'U', true);
    entered(wanted.z, 'Z', 'W', false);
    const bool before = shift_ != Point{} && shiftOn_.incremental;
    shift_ = shift_ + (shown - wanted);
    const bool incremental = now_.incremental || words_.hasAny(axes() & BlockWords::bits({'U', 'W'}));
    const bool both = words_.has('X') && words_.has('Z');
    shiftOn_ = {{block(), orders_[CodeGroup::OneShot]->word}, now_.position, incremental || (before && !both)};
    refreshDatum();
}

// A shift that is still there when the program ends stands in the next cycle, too, unless that sets the same display at
// the same place again.
void Control::checkShift() {
    if (length(shift_) < tolerance::kSamePlaceMm || shiftOn_.at.word == nullptr) return;
    const bool sameAgain = !shiftOn_.incremental && distance(now_.position, shiftOn_.turret) < kLeastIncrementMm;
    const double x = 2 * shift_.r;
    remarks_.at(shiftOn_.at.block, *shiftOn_.at.word,
                {sameAgain ? Severity::Note : Severity::Warning,
                 "coordinate-shift-left-on",
                 say("The shift of the coordinates by X{} Z{} is still in force when the program ends. {}", figure(x),
                     figure(shift_.z),
                     sameAgain ? tr("The next cycle sets the same again only if it starts from this very place.")
                               : tr("The next cycle starts with it and shifts again: the part lies elsewhere.")),
                 tr("Take the shift back before the end, or use a work offset (G54 to G59)."),
                 {{"shift_x_mm", x}, {"shift_z_mm", shift_.z}}});
}

// G52: within the work offset, until another G52.
void Control::localShift() {
    use(axes());
    if (words_.axesUnknown()) return;
    if (!words_.hasAny(axes())) {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Warning, "local-shift-without-axes", tr("G52 names no axis: nothing was shifted."),
                     tr("Write the shift behind it, or G52 X0 Z0 to take one back.")});
        return;
    }
    leaveCompensation(tr("a change of the coordinates (G52)"), orders_[CodeGroup::OneShot]->word);
    settle();
    entered(localShift_.r, 'X', 'U', true);
    entered(localShift_.z, 'Z', 'W', false);
    refreshDatum();
}

// A value as the block gives it: new, or by how much it changes. `axis` in mm, X on radius.
void Control::entered(double& axis, char absolute, char incremental, bool alongR) {
    const auto value = [&](char letter) { return alongR ? onRadius(letter) : lengthOf(letter); };
    if (words_.has(absolute)) axis = value(absolute) + (now_.incremental ? axis : 0);
    if (setup_.control.codeSystem == CodeSystem::A && words_.has(incremental)) axis += value(incremental);
}

// G10.
void Control::dataEntry() {
    use(kEntry & ~(BlockWords::bits({'U', 'W'}) & ~axes()));
    if (words_.axesUnknown()) return;
    const int kind = words_.has('L') ? static_cast<int>(std::lround(words_.number('L'))) : 0;
    if (kind == kPlain || kind == kFurther) return enterWorkOffset(kind);
    if (kind == 10 || kind == 11) {
        if (const auto number = entryNumber(1, kMostOffsets)) enterOffset(kind == 10, *number);
        return;
    }
    if (kind != 0) {
        remarks_.at(block(), *words_.word('L'),
                    {Severity::Warning,
                     "data-entry-not-understood",
                     say("G10 {} enters something of the machine that a trial does not have; nothing was "
                         "entered.",
                         program_.textOf(*words_.word('L'))),
                     tr("Prove on the machine what depends on it."),
                     {},
                     true});
        return;
    }
    const bool geometry = words_.has('P') && words_.number('P') >= kGeometryFrom;
    const int before = geometry ? kGeometryFrom : 0;
    if (const auto number = entryNumber(before + 1, before + kMostOffsets)) enterOffset(geometry, *number - before);
}

// P of a G10 as a whole number; reports one that is missing or out of range.
std::optional<int> Control::entryNumber(int least, int most) {
    const Word* word = words_.word('P');
    const double wanted = word != nullptr ? word->value : least - 1;
    const double whole = std::round(wanted);
    if (whole >= least && whole <= most && std::abs(wanted - whole) <= kWholeWithin) return static_cast<int>(whole);
    remarks_.at(
        block(), word != nullptr ? word : orders_[CodeGroup::OneShot]->word,
        {Severity::Stop, "no-such-offset",
         word == nullptr ? std::string(tr("G10 does not say with P which offset it enters; nothing was entered."))
                         : say("G10 enters no offset {}; nothing was entered.", program_.textOf(*word)),
         tr("Correct the P word.")});
    return std::nullopt;
}

// L2: P0 the external offset, P1 to P6 for G54 to G59. L20: P of G54.1. In machine coordinates; the external offset,
// which is added to them, is a plain distance. X counts from the axis, as in the set-up: on lathes the tool's length
// carries the way from the reference position to it (common practice, no source).
void Control::enterWorkOffset(int kind) {
    const auto number = kind == kPlain ? entryNumber(0, static_cast<int>(kPlainWorkOffsets))
                                       : entryNumber(1, static_cast<int>(kFurtherWorkOffsets));
    if (!number) return;
    leaveCompensation(tr("a change of the work offset (G10)"), orders_[CodeGroup::OneShot]->word);
    settle();
    if (*number == 0) {
        entered(externalOffset_.r, 'X', 'U', true);
        entered(externalOffset_.z, 'Z', 'W', false);
    } else {
        const auto index = static_cast<std::size_t>(kind == kPlain ? *number - 1 : 5 + *number);
        const Point from{setup_.machine.home.z, 0};
        Point origin = workOffsets_[index] - from;
        entered(origin.r, 'X', 'U', true);
        entered(origin.z, 'Z', 'W', false);
        workOffsets_[index] = origin + from;
        workOffsetGiven_[index] = workOffsetGiven_[index] || (words_.has('Z') && !now_.incremental);
    }
    refreshDatum();
}

// Geometry: the gauge lengths, in the sense of gauge_x_mm of the set-up. Wear: what is added to them.
void Control::enterOffset(bool geometry, int number) {
    Offset& entry = offsetToEnter(number);
    if (geometry && words_.hasAny(kAlongR | kAlongZ)) {
        const Tool* tool = setup_.toolAt(number);
        Point gauge = entry.gauge ? *entry.gauge : tool != nullptr ? tool->tip : Point{};
        entered(gauge.r, 'X', 'U', true);
        entered(gauge.z, 'Z', 'W', false);
        entry.gauge = gauge;
    } else if (!geometry) {
        entered(entry.wear.r, 'X', 'U', true);
        entered(entry.wear.z, 'Z', 'W', false);
    }
    enterNose(entry, geometry);
    takeUpOffset(number, block(), *orders_[CodeGroup::OneShot]->word);
}

// R the nose radius, C by how much it changes, Q the number of the tip.
void Control::enterNose(Offset& entry, bool geometry) {
    const bool wear = !geometry && words_.hasAny(BlockWords::bits({'R', 'C'}));
    if (wear && (!words_.has('R') || words_.number('R') != 0)) {
        remarks_.at(block(), words_.has('R') ? words_.word('R') : words_.word('C'),
                    {Severity::Warning,
                     "data-entry-not-understood",
                     tr("A nose radius is entered with the wear: some controls take it as the radius, others add it. "
                        "It was taken as the radius."),
                     tr("Enter it with the geometry (P from 10001 on, or L10)."),
                     {},
                     true});
    }
    const double before = entry.noseRadius.value_or(0);
    if (words_.has('R') && (geometry || words_.number('R') != 0)) entry.noseRadius = std::abs(lengthOf('R'));
    if (words_.has('C')) entry.noseRadius = std::abs(before + lengthOf('C'));
    if (!words_.has('Q')) return;
    setTip(entry, block(), words_.number('Q'), *words_.word('Q'));
}

void Control::setTip(Offset& entry, BlockId where, double number, const Word& word) {
    if (number == std::floor(number) && number >= 0 && number <= 9) {
        entry.tipNumber = static_cast<int>(number);
        return;
    }
    remarks_.at(where, word,
                {Severity::Stop, "no-such-tip",
                 say("{} is no number of an imaginary tip; it was left as it is.", figure(number)),
                 tr("Write a whole number from 0 to 9.")});
}

Offset& Control::offsetToEnter(int number) {
    const auto at = std::lower_bound(offsets_.begin(), offsets_.end(), number,
                                     [](const Offset& entry, int n) { return entry.number < n; });
    if (at != offsets_.end() && at->number == number) return *at;
    Offset entry;
    entry.number = number;
    return *offsets_.insert(at, entry);
}

// An offset that is in force while it is entered, by a G10 or a variable.
void Control::takeUpOffset(int number, BlockId where, const Word& word) {
    if (call().station == 0 || call().offset != number) return;
    const Tool* tool = call().toolIndex >= 0 ? &setup_.tools[static_cast<std::size_t>(call().toolIndex)] : nullptr;
    const Point reckoned = reckonedTip(call().station, number, tool);
    if (reckoned == call().reckoned) return;
    const bool compensating = now_.modal.compensation != Compensation::Off;
    remarks_.at(where, word,
                {Severity::Warning,
                 "offset-changed-while-active",
                 compensating ? say("Offset {} is in force while it is changed; nose-radius compensation is on, and it "
                                    "was left for the next T word.",
                                    number)
                              : say("Offset {} is in force while it is changed; it counts from the next block on here, "
                                    "but some controls wait for the next T word.",
                                    number),
                 say("Enter it before the tool is called, or write T{:02}{:02} behind it.", call().station, number),
                 {{"offset", static_cast<double>(number)}},
                 true});
    if (compensating) return;
    settle();
    ToolCall next = call();
    next.reckoned = reckoned;
    next.block = where;
    addCall(next, word);
}

// G28, G30: at rapid to the point given, then on to a reference position; only the axes that are named.
void Control::referenceReturn() {
    use(axes());
    const Code& code = *orders_[CodeGroup::OneShot];
    const bool alongR = words_.hasAny(axes() & kAlongR);
    const bool alongZ = words_.hasAny(axes() & kAlongZ);
    std::optional<Point> end = setup_.machine.home;
    if (code.order == Order::OtherReference) end = otherReference();
    const bool turns = words_.hasAny(BlockWords::bits({'C', 'H'})) && spindleMayBeAxis();
    if (turns) referenceSpindleAxis();
    if (!alongR && !alongZ) {
        if (turns) return;
        const char* name = code.order == Order::OtherReference ? "G30" : "G28";
        remarks_.at(block(), *code.word,
                    {Severity::Warning, "reference-without-axes", say("{} names no axis: nothing was moved.", name),
                     setup_.control.codeSystem == CodeSystem::A ? say("Name the axes: {} U0 W0.", name)
                                                                : say("Name the axes: {} X0 Z0 under G91.", name)});
        return;
    }
    if (words_.axesUnknown()) return;
    noteCycleLeftOn(tr("the return to the reference position (G28)"), code.word);
    leaveCompensation(tr("the return to the reference position (G28)"), code.word);
    const bool uncancelled = recorder_->compensating();
    settle();
    if (!now_.datumChecked && words_.hasAny(BlockWords::bits({'X', 'Z'})) && !now_.incremental) checkDatum();
    const Point through = uncancelled ? now_.position : target();
    add(newMove(MoveKind::Rapid, through));
    now_.position = through;
    if (!end) return;
    Point home = through;
    if (alongR) home.r = end->r;
    if (alongZ) home.z = end->z;
    add(newMove(MoveKind::Home, home));
    now_.position = home;
}

// G30: P2 to P4, the second without P. Nothing, and said, where the set-up does not give it.
std::optional<Point> Control::otherReference() {
    use(BlockWords::bit('P'));
    const Word* word = words_.word('P');
    const double wanted = word != nullptr ? word->value : 2;
    const bool exists = wanted == 2 || wanted == 3 || wanted == 4;
    if (!exists) {
        remarks_.at(block(), *word,
                    {Severity::Stop, "no-such-reference",
                     tr("G30 goes to the second, third or fourth reference position, P2 to P4; it went to the point "
                        "between only."),
                     tr("Correct the P word.")});
        return std::nullopt;
    }
    const auto& given = setup_.machine.otherReferences[static_cast<std::size_t>(wanted) - 2];
    if (given) return given;
    // Told by tr; in the keys of the set-up as they are.
    const char* const names[] = {later("second"), later("third"), later("fourth")};
    const char* name = names[static_cast<std::size_t>(wanted) - 2];
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Warning,
                 "reference-not-in-setup",
                 say("The set-up does not say where the {} reference position is; the turret went to the point "
                     "between only.",
                     tr(name)),
                 say("Enter {0}_reference_x_mm and {0}_reference_z_mm in the set-up file.", name),
                 {},
                 true});
    return std::nullopt;
}

// G27: at rapid to a point that must be the reference position.
void Control::referenceCheck() {
    use(axes());
    const Word& word = *orders_[CodeGroup::OneShot]->word;
    if (words_.axesUnknown()) return;
    leaveCompensation(tr("the check of the reference position (G27)"), &word);
    settle();
    if (!now_.datumChecked) checkDatum();
    const Point to = target();
    add(newMove(MoveKind::Rapid, to));
    now_.position = to;
    const Point home = setup_.machine.home;
    const double offR = words_.hasAny(axes() & kAlongR) ? 2 * (to.r - home.r) : 0;
    const double offZ = words_.hasAny(axes() & kAlongZ) ? to.z - home.z : 0;
    if (std::abs(offR) <= kLeastIncrementMm && std::abs(offZ) <= kLeastIncrementMm) return;
    remarks_.at(block(), word,
                {Severity::Stop,
                 "not-at-reference",
                 say("G27 does not end at the reference position: X is {} mm and Z {} mm away from it; the control "
                     "stops with an alarm.",
                     figure(offR), figure(offZ)),
                 tr("Correct the position, or use G28."),
                 {{"off_x_mm", offR}, {"off_z_mm", offZ}}});
}

}  // namespace firstoff
