// M codes that only the set-up knows: [m_codes] says what they mean, how long they take and what they switch.
#include <cmath>

#include "sim/base/say.h"
#include "sim/control/codes.h"
#include "sim/control/control.h"

namespace firstoff {

// The entry of the set-up for an M word that has no meaning of its own.
const MachineCode* Control::machineCode(const Word& word) const {
    const bool whole = word.value >= 0 && word.value < 1000 && word.value == std::floor(word.value);
    return whole ? setup_.machineCode(static_cast<int>(word.value)) : nullptr;
}

void Control::applyMachineCodes() {
    if (reading_ == Reading::ProfileShape) return;
    for (const Code* code = words_.mBegin(); code != words_.mEnd(); ++code) {
        if (code->order != Order::Unknown) continue;
        if (const MachineCode* known = machineCode(*code->word)) carryOutMachineCode(*known, *code->word);
    }
}

void Control::carryOutMachineCode(const MachineCode& code, const Word& word) {
    if (code.spindle) turnSpindle(*code.spindle, word);
    if (code.coolant) now_.modal.coolant = *code.coolant;
    modalDirty_ |= code.coolant.has_value();
    waitForMachineCode(code.timeS > 0 ? code.timeS : usualSeconds(code), code.action);
}

// Of an M code that has no time of its own.
double Control::usualSeconds(const MachineCode& code) const {
    const OtherTimes& times = setup_.machine.times;
    switch (code.action) {
        case MachineAction::TailstockAdvance:
        case MachineAction::TailstockRetract:
            return times.tailstockS;
        case MachineAction::ChuckOpen:
        case MachineAction::ChuckClose:
        case MachineAction::SecondSpindleGrip:
        case MachineAction::SecondSpindleRelease:
            return times.chuckS;
        default:
            return code.coolant ? times.coolantS : times.machineCodeS;
    }
}

void Control::waitForMachineCode(double seconds, MachineAction action) {
    if (seconds <= 0 && action == MachineAction::None) return;
    Move move = newMove(MoveKind::Dwell, now_.position);
    move.seconds = seconds;
    MoveExtra extra;
    extra.machineCode = true;
    move.extra = extraIndex(extra);
    if (action == MachineAction::None) return add(move);
    recorder_->addWithAction(move, action);
}

// What a code of the trade means is not for the set-up to say.
void Control::checkMachineCodes() {
    for (const MachineCode& code : setup_.machineCodes) {
        const CodeEntry* entry = codeEntry('M', code.number * 10, setup_.control.codeSystem);
        if (entry == nullptr) continue;
        Finding finding;
        finding.severity = Severity::Stop;
        finding.code = "setup-m-code-known";
        finding.span = code.span;
        finding.message = say("[m_codes] gives M{:02} a meaning, but it has one already: {} That one was taken.",
                              code.number, tr(entry->meaning));
        finding.remedy = tr("Take the table out of the set-up file.");
        out_.findings.push_back(std::move(finding));
    }
}

}  // namespace firstoff
