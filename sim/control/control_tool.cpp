// Tool calls and nose-radius compensation.
#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/say.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"
#include "sim/control/tool_word.h"

namespace firstoff {

namespace {

// Radii nearer than this are the same insert: makers' tolerance on nose radii is far wider.
constexpr double kSameRadiusMm = 0.005;

}  // namespace

void Control::applyTool() {
    if (orders_[CodeGroup::ToolChange] != nullptr && !words_.has('T') && reading_ == Reading::Program) {
        remarks_.at(block(), *orders_[CodeGroup::ToolChange]->word,
                    {Severity::Note, "tool-change-without-tool",
                     tr("M06 has no T word beside it; a turret indexes with T alone."),
                     tr("Take M06 out, or write the T word with it.")});
    }
    if (!words_.has('T')) return;
    use(BlockWords::bit('T'));
    const Word& word = *words_.word('T');
    if (reading_ == Reading::ProfileShape) return;
    if (reading_ == Reading::FinishCut) {
        remarks_.at(block(), word,
                    {Severity::Stop,
                     "not-allowed-in-profile",
                     tr("A tool call cannot stand between the P and Q blocks of a cycle; it was left out."),
                     tr("Call the tool in front of the cycle."),
                     {},
                     true});
        return;
    }
    // T#3: the figures are those of the number.
    const bool calculated = word.form == Word::Form::Expression;
    const ToolWord tool =
        calculated ? readToolWord(figure(word.value), word.value) : readToolWord(program_.textOf(word), word.value);
    if (tool.form == ToolWord::Form::Unreadable) {
        remarks_.at(block(), word,
                    {Severity::Stop, "bad-tool-word",
                     say("{} is no station and offset; no tool was called.", program_.textOf(word)),
                     tr("Write two figures for the station and two for the offset, e.g. T0101.")});
        return;
    }
    if (tool.form == ToolWord::Form::StationOnly) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "short-tool-word",
                     say("{} was taken as station {} with offset {}; controls differ in how they read a short T word.",
                         program_.textOf(word), tool.station, tool.offset),
                     say("Write it in full: T{:02}{:02}.", tool.station, tool.offset),
                     {},
                     true});
    }
    callTool(tool.form == ToolWord::Form::OffsetOnly ? call().station : tool.station, tool.offset, word);
}

void Control::callTool(int station, int offset, const Word& word) {
    const Tool* tool = setup_.toolAt(station);
    const Point reckoned = reckonedTip(station, offset, tool);
    const bool asBefore = station == 0 || reckoned == call().reckoned;
    if (station == call().station && offset == call().offset && asBefore) return;
    if (station != call().station) noteCycleLeftOn(tr("the tool change"), &word);
    leaveCompensation(station != call().station ? tr("a tool change") : tr("a change of the tool offset"), &word);
    settle();
    const bool indexes = station != call().station;
    if (indexes) now_.spindleAxis = {};
    ToolCall next;
    next.station = station;
    next.offset = offset;
    next.block = block();
    next.tip = tool != nullptr ? tool->tip : Point{};
    next.toolIndex = tool != nullptr ? static_cast<int>(tool - setup_.tools.data()) : -1;
    next.reckoned = reckoned;
    if (!addCall(next, word)) return;
    reportTool(next, word);
    if (!indexes) return;
    Move move = newMove(MoveKind::Index, now_.position);
    move.seconds = setup_.machine.indexTimeS;
    add(move);
}

bool Control::addCall(const ToolCall& next, const Word& word) {
    if (out_.calls.size() > std::numeric_limits<std::uint16_t>::max()) {
        remarks_.at(block(), word,
                    {Severity::Stop, "too-many-tool-calls",
                     say("More than {} tool calls; the program was stopped here.", out_.calls.size()),
                     tr("Split the program.")});
        ended_ = endless_ = true;
        return false;
    }
    out_.calls.push_back(next);
    now_.call = static_cast<int>(out_.calls.size()) - 1;
    now_.datumChecked = false;
    return true;
}

// As it is entered by now: by the set-up, or by the program.
const Offset* Control::offset(int number) const {
    const auto found = std::lower_bound(offsets_.begin(), offsets_.end(), number,
                                        [](const Offset& entry, int n) { return entry.number < n; });
    return found != offsets_.end() && found->number == number ? &*found : nullptr;
}

// Gauge minus wear: a wear of +0.1 makes the turret stand 0.1 farther out.
Point Control::reckonedTip(int station, int offset, const Tool* tool) const {
    const Offset* entry = offset > 0 ? this->offset(offset) : nullptr;
    if (offset == 0 && setup_.control.offsetCancel == ControlOptions::OffsetCancel::All) return {};
    const Point wear = entry != nullptr ? entry->wear : Point{};
    if (entry != nullptr && entry->gauge) return *entry->gauge - wear;
    if (tool != nullptr) return tool->tip - wear;
    // An empty station was called, which was reported. Reckoning with no length at all would drive the turret itself to
    // the part and bring findings that only repeat it; so some other tool's length stands in.
    for (const Tool& other : setup_.tools) {
        if (other.station != station) return other.tip - wear;
    }
    return -wear;
}

void Control::reportTool(const ToolCall& called, const Word& word) {
    if (called.station > 0 && called.toolIndex < 0) {
        const bool noStation = called.station > setup_.machine.stations;
        remarks_.at(block(), word,
                    {Severity::Stop,
                     "tool-not-in-setup",
                     noStation ? say("{} calls station {}, but the turret has {} stations.", program_.textOf(word),
                                     called.station, setup_.machine.stations)
                               : say("{} calls station {}, where the set-up has no tool.", program_.textOf(word),
                                     called.station),
                     tr("Add the tool to the set-up file, or correct the T word."),
                     {{"station", called.station}}});
        return;
    }
    if (called.offset > 0 && called.offset != called.station && offset(called.offset) == nullptr) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "offset-not-in-setup",
                     say("Station {} is called with offset {}, which the set-up does not enter; the tool's own length "
                         "was taken. On the machine another tool's length may stand there.",
                         called.station, called.offset),
                     say("Write T{0:02}{0:02}, or enter offset {1} in the set-up file.", called.station, called.offset),
                     {{"station", called.station}, {"offset", called.offset}},
                     true});
    }
}

void Control::applyCompensation() {
    if (asProgrammed_ && orders_[CodeGroup::Compensation]->order == Order::CompensationOff) cancelsInProfile_ = block();
    if (reading_ == Reading::ProfileShape && (asProgrammed_ || !setup_.control.compensateInRoughing)) return;
    // With the spindle as an axis it would be the radius of a milling cutter, in another plane.
    if (now_.spindleAxis.engaged && orders_[CodeGroup::Compensation]->order != Order::CompensationOff) return;
    if (openLine_) dropLine(tr("nose-radius compensation changes between the two lines"));
    const Order order = orders_[CodeGroup::Compensation]->order;
    if (order == Order::CompensationOff) return cancelCompensation();
    startCompensation(order == Order::CompensationLeft ? Compensation::Left : Compensation::Right);
}

// The next movement leads off the path, in this block or in a later one, as most controls have it.
void Control::cancelCompensation() {
    constexpr std::uint32_t kVector = BlockWords::bits({'I', 'K'});
    const Code* given = orders_[CodeGroup::Motion];
    const int motion = given != nullptr ? given->tenths / 10 : now_.modal.motion;
    if (words_.hasAny(kVector) && motion <= 1 && orders_[CodeGroup::OneShot] == nullptr) {
        use(kVector);
        remarks_.at(
            block(), *orders_[CodeGroup::Compensation]->word,
            {Severity::Warning,
             "cancel-vector-not-modelled",
             tr("I and K beside G40 give the direction of a wall to leave at; that is not carried out here, and the "
                "path was left square on its last move."),
             tr("Leave I and K out, and move away from the part with G40."),
             {},
             true});
    }
    if (recorder_->compensating()) recorder_->cancelCompensation();
    now_.modal.compensation = Compensation::Off;
    modalDirty_ = true;
}

void Control::startCompensation(Compensation side) {
    const bool on = now_.modal.compensation != Compensation::Off;
    if (on && side == now_.modal.compensation) return;
    if (!on) settle();
    now_.modal.compensation = side;
    modalDirty_ = true;
    compensationOn_ = {block(), orders_[CodeGroup::Compensation]->word};
    const auto order = compensationOrder(side);
    if (!order) return;
    if (on && recorder_->compensating()) {
        recorder_->changeSide(*order);
    } else {
        recorder_->startCompensation(*order);
    }
}

// Nose radius and tip number as entered with the offset, else the tool's own; nothing if there is no radius.
std::optional<CompensationOrder> Control::compensationOrder(Compensation side) {
    const Tool* tool = call().toolIndex >= 0 ? &setup_.tools[static_cast<std::size_t>(call().toolIndex)] : nullptr;
    const Offset* entry = call().offset > 0 ? offset(call().offset) : nullptr;
    const bool grooving = tool != nullptr && (tool->kind == ToolKind::Grooving || tool->kind == ToolKind::Parting);
    const double own = tool == nullptr ? 0.0 : grooving ? gaugedCornerRadius(*tool) : tool->noseRadius;
    CompensationOrder order;
    CompensationSetting& setting = order.setting;
    setting.side = side;
    setting.start = setup_.control.compensationStart;
    setting.noseRadius = entry != nullptr && entry->noseRadius ? *entry->noseRadius : own;
    order.tipOfTool = tool != nullptr ? tool->tipNumber : 0;
    setting.tipNumber = entry != nullptr && entry->tipNumber ? *entry->tipNumber : order.tipOfTool;
    order.bladeMm = grooving && !tool->face ? tool->width : 0;
    order.reckoned = call().reckoned;
    order.block = block();
    order.word = orders_[CodeGroup::Compensation]->word;
    if (tool != nullptr) checkNoseEntries(setting, *tool, own);
    if (setting.noseRadius <= 0) return std::nullopt;
    return order;
}

// What was entered on the offset page against the tool that is there.
void Control::checkNoseEntries(const CompensationSetting& setting, const Tool& tool, double noseRadius) {
    const Word& word = *orders_[CodeGroup::Compensation]->word;
    if (std::abs(setting.noseRadius - noseRadius) > kSameRadiusMm) {
        remarks_.at(
            block(), word,
            {Severity::Warning,
             "nose-radius-differs",
             say("Offset {} has a nose radius of {} mm, the insert has {} mm: tapers, fillets and chamfers come "
                 "out wrong.",
                 call().offset, figure(setting.noseRadius), figure(noseRadius)),
             tr("Enter the radius of the insert with the offset."),
             {{"entered_mm", setting.noseRadius}, {"insert_mm", noseRadius}}});
    } else if (setting.noseRadius <= 0) {
        remarks_.at(
            block(), word,
            {Severity::Warning, "compensation-without-radius",
             tr("Nose-radius compensation is switched on, but the tool has no nose radius: nothing was compensated."),
             tr("Enter the nose radius of the tool, or leave G41 and G42 out.")});
    }
    if (setting.noseRadius <= 0 || setting.tipNumber == tool.tipNumber) return;
    remarks_.at(block(), word,
                {Severity::Warning,
                 "tip-number-differs",
                 say("Offset {} has tip number {}, the tool stands as tip {}: the compensated path is shifted "
                     "by up to {} mm.",
                     call().offset, setting.tipNumber, tool.tipNumber,
                     figure(setting.noseRadius *
                            distance(tipFromNoseCentre(setting.tipNumber), tipFromNoseCentre(tool.tipNumber)))),
                 say("Enter tip number {} with the offset.", tool.tipNumber),
                 {{"entered", setting.tipNumber}, {"tool", tool.tipNumber}}});
}

// Compensation still on before something that needs it off: said once, then it is off.
void Control::leaveCompensation(const char* before, const Word* word) {
    if (now_.modal.compensation == Compensation::Off) return;
    const bool left = now_.modal.compensation == Compensation::Left;
    const std::uint32_t line = program_.lineOf(compensationOn_.block);
    remarks_.at(block(), word,
                {Severity::Warning,
                 "compensation-left-on",
                 say("Nose-radius compensation {} of line {} is still on at {}.", left ? "G41" : "G42", line, before),
                 tr("Cancel it with G40 and a straight move away from the part first."),
                 {{"switched_on_in_line", static_cast<double>(line)}}});
    now_.modal.compensation = Compensation::Off;
    modalDirty_ = true;
}

// Writes out what waits. With compensation not cancelled by a move, the turret stands at its compensated position.
void Control::settle() {
    if (openLine_) dropLine(tr("no such line follows"));
    const bool compensated = recorder_->compensating();
    const Point at = recorder_->settle();
    if (compensated) now_.position = at;
}

}  // namespace firstoff
