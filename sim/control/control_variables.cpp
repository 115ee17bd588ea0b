// What the variables of a program mean on a lathe. The numbering is common practice, from memory, no source; work
// offsets as in NISTIR 6556 table 2 (first at #5221, 20 apart).
#include <cmath>

#include "sim/base/say.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

bool isBetween(std::int32_t index, std::int32_t first, std::int32_t last) {
    return index >= first && index <= last;
}

// The text of the first comment in a line.
std::string commentOf(std::string_view line) {
    const std::size_t open = line.find('(');
    if (open == std::string_view::npos) return {};
    const std::string_view text = line.substr(open + 1);
    return std::string(text.substr(0, text.find(')')));
}

}  // namespace

double Control::read(std::int32_t index, std::uint32_t offset) {
    if (index == 0) return kNull;
    if (Variables::isLocal(index) || (Variables::isCommon(index) && variables_.wasSet(index))) {
        return variables_.get(index);
    }
    return systemVariable(index, offset);
}

double Control::systemVariable(std::int32_t index, std::uint32_t offset) {
    Word at;
    at.offset = offset;
    at.length = 1;
    if (Variables::isCommon(index)) {
        doubtVariable(
            at, "variable-not-known",
            Variables::isKept(index)
                ? say("#{} was not set in this program; machines keep it from earlier work, so what it holds is not "
                      "known. It was taken as null.",
                      index)
                : say("#{} was not set in this program; machines keep it until they are switched off, so what it "
                      "holds is not known. It was taken as null.",
                      index),
            tr("Set it in the program, or check what stands in it on the machine."));
        return kNull;
    }
    if (const auto position = positionVariable(index, at)) return *position;
    if (const auto modal = modalVariable(index)) return *modal;
    if (const auto entered = offsetVariable(index)) return *entered;
    if (isBetween(index, 34, 99) || isBetween(index, 200, 499)) {
        remarks_.at(executing_, at,
                    {Severity::Stop, "no-such-variable",
                     say("There is no variable #{}: it is neither local (#1 to #33), common (#100 to #199, "
                         "#500 to #999) nor of the system.",
                         index),
                     tr("Use another variable.")});
        return kNull;
    }
    doubtVariable(at, "variable-not-known",
                  say("#{} tells something of the machine that a trial does not have; it was taken as 0.", index),
                  tr("Prove this part of the program on the machine."));
    return 0;
}

// #5001 #5002: the end of the last block, X as it is programmed. #5021 #5022: the same in machine coordinates. #5041
// #5042: where the slides stand in work coordinates.
std::optional<double> Control::positionVariable(std::int32_t index, const Word& at) {
    const Point work = workPosition();
    const Point machine = now_.position - setup_.machine.home;
    const double length = 1 / scale();
    const double xFactor = setup_.control.radiusProgramming ? 1 : 2;
    if (now_.modal.compensation != Compensation::Off &&
        (isBetween(index, 5021, 5022) || isBetween(index, 5041, 5042))) {
        doubtVariable(at, "variable-not-known",
                      say("#{} is read while nose-radius compensation is on: where the slides then stand "
                          "depends on how far the control reads ahead. The programmed position was taken.",
                          index),
                      tr("Read it after G40, or read #5001 and #5002."));
    }
    if (openLine_ && isBetween(index, 5001, 5042)) {
        doubtVariable(at, "variable-not-known",
                      say("#{} is read while a line by its angle waits for its end point, which the next block "
                          "gives; the position before it was taken.",
                          index),
                      tr("Read it behind the block that ends the line."));
    }
    switch (index) {
        case 5001:
        case 5041:
            return xFactor * work.r * length;
        case 5002:
        case 5042:
            return work.z * length;
        case 5021:
            return xFactor * machine.r * length;
        case 5022:
            return machine.z * length;
        default:
            return std::nullopt;
    }
}

// #4001 …: the code of each group that stands; #4109 F, #4114 N, #4115 O, #4119 S, #4120 T.
std::optional<double> Control::modalVariable(std::int32_t index) const {
    const ModalState& modal = now_.modal;
    switch (index) {
        case 4001:
            return modal.motion;
        case 4002:
            return modal.constantSurfaceSpeed ? 96 : 97;
        case 4005:
            return modal.feedPerRev ? 99 : 98;
        case 4006:
            return modal.inches ? 20 : 21;
        case 4007:
            return 40 + static_cast<int>(modal.compensation);
        case 4014:
            return modal.workOffset < 6 ? 54 + modal.workOffset : 54.1;
        case 4109:
            return modal.feed / scale();
        case 4119:
            return modal.speed;
        case 4120:
            return 100 * call().station + call().offset;
        default:
            return std::nullopt;
    }
}

void Control::setSystemVariable(BlockId block, std::int32_t index, double value, const Word& at) {
    const std::string text = commentOf(program_.textOf(program_.blocks[block]));
    if (index == 3000) {
        ended_ = endless_ = true;
        remarks_.at(block, at,
                    {Severity::Stop,
                     "program-alarm",
                     say("The program stops itself with alarm {}{}.", figure(isNull(value) ? 0 : value),
                         text.empty() ? "" : ": " + text),
                     tr("See why the program comes to this line."),
                     {{"alarm", isNull(value) ? 0 : value}}});
        return;
    }
    if (index == 3006) {
        recorder_->stop(ProgramStop::Kind::Stop, block);
        remarks_.at(block, at,
                    {Severity::Note, "program-message",
                     say("The program stops here and shows: {}", text.empty() ? tr("(no text)") : text),
                     tr("Do what the message asks, then start again.")});
        return;
    }
    if (isBetween(index, 0, 499)) {
        remarks_.at(block, at,
                    {Severity::Stop, "no-such-variable",
                     index == 0 ? std::string(tr("#0 is always null and cannot be set."))
                                : say("There is no variable #{}; nothing was set.", index),
                     tr("Use #1 to #33, #100 to #199 or #500 to #999.")});
        return;
    }
    if (isBetween(index, 4001, 4130) || isBetween(index, 5001, 5089)) {
        remarks_.at(
            block, at,
            {Severity::Stop, "read-only-variable", say("#{} can only be read; the control stops with an alarm.", index),
             tr("Write the code or the move itself.")});
        return;
    }
    if (isBetween(index, 3003, 3004)) {
        remarks_.at(block, at,
                    {Severity::Note, "control-behaviour-set",
                     say("#{} changes single block, feed hold or exact stop; the moves are the same.", index),
                     tr("Set it back to 0 at the end of the program.")});
        return;
    }
    if (setOffsetVariable(block, index, value, at)) return;
    doubtVariable(at, "variable-not-known",
                  say("#{} sets something of the machine that a trial does not have; nothing was set.", index),
                  tr("Prove this part of the program on the machine."));
}

void Control::doubtVariable(const Word& at, const char* code, std::string message, std::string remedy) {
    remarks_.at(executing_, at, {Severity::Warning, code, std::move(message), std::move(remedy), {}, true});
}

}  // namespace firstoff
