#include "sim/control/control.h"

#include <utility>

#include "sim/base/say.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kFrameLetters = BlockWords::bits({'N', 'O'});

// NISTIR 6556 sec. 3.3.5.
constexpr int kMostMCodes = 4;

std::uint32_t bitOf(const Word& word) {
    if (!word.comma) return BlockWords::bit(word.letter);
    return word.letter == 'A'   ? BlockWords::kCommaA
           : word.letter == 'C' ? BlockWords::kCommaC
           : word.letter == 'R' ? BlockWords::kCommaR
                                : 0;
}

}  // namespace

Control::Control(const Program& program, const Setup& setup, Toolpath& out)
    : program_(program),
      setup_(setup),
      out_(out),
      remarks_(program, out.findings),
      mainRecorder_(out, remarks_, setup.machine.home),
      recorder_(&mainRecorder_),
      end_(endOfProgramText(program)),
      reached_(program.blocks.size()),
      search_(program, end_),
      values_(program, remarks_, *this),
      roughingRetract_(setup.control.roughingRetractMm),
      peckRetract_(setup.control.peckClearanceMm) {
    offsets_ = setup.offsets;
    workOffsets_ = setup.workOffsets;
    workOffsetGiven_ = setup.workOffsetGiven;
    out_.datums.front() = workOffsets_.front();
    out_.modals.push_back(now_.modal);
    out_.calls.push_back({});
    now_.position = setup.machine.home;
}

void Control::run() {
    out_.moves.reserve(program_.blocks.size());
    out_.steps.reserve(program_.blocks.size());
    checkMachineCodes();
    while (!ended_) {
        if (next_ < end_) {
            carryOut(next_++);
        } else if (levels_.empty()) {
            break;
        } else {
            endOfCalledText();
        }
    }
    finish();
}

void Control::carryOut(BlockId block) {
    if (isLeftOut(block)) return;
    if (++executed_ > setup_.control.maxBlocks) {
        return tooManyBlocks(block);
    }
    if (reading_ != Reading::ProfileShape) recorder_->beginStep(block);
    executing_ = block;
    reached_[block] = true;
    if (program_.blocks[block].kind == Block::Kind::Statement) return carryOutStatement(block);
    words_.collect(program_, block, setup_.control, remarks_, values_);
    carryOutWords();
}

void Control::tooManyBlocks(BlockId block) {
    ended_ = endless_ = true;
    const auto most = setup_.control.maxBlocks;
    remarks_.at(
        lastWayBackFrom_ == kNoBlock ? block : lastWayBackFrom_,
        {Severity::Stop, "endless-program",
         lastWayBackFrom_ == kNoBlock
             ? say("More than {} blocks and moves of cycles were carried out; the program was stopped here.", most)
             : say("More than {} blocks and moves of cycles were carried out, last again and again from line "
                   "{} back to line {}; the program was stopped here.",
                   most, program_.lineOf(lastWayBackFrom_), program_.lineOf(lastWayBackTo_)),
         tr("Check repeats and jumps, or raise the limit in the set-up.")});
}

// Blocks that frame the program, are empty, or are skipped.
bool Control::isLeftOut(BlockId block) const {
    const Block& b = program_.blocks[block];
    if (b.kind == Block::Kind::Percent) return true;
    if (b.skip != 0 && (setup_.control.blockSkipLevels >> b.skip & 1) != 0) return true;
    return b.wordCount == 0 && b.kind != Block::Kind::Statement;
}

void Control::carryOutWords() {
    orders_ = Orders{};
    used_ = kFrameLetters;
    if (words_.gBegin() != words_.gEnd() || words_.mBegin() != words_.mEnd()) sortCodes();
    if (words_.secondU() != nullptr || words_.repeated() != nullptr) checkRepeatedWords();
    if (callsMacro()) {
        macroBlock();
        if ((words_.letters() & ~used_) != 0) reportLeftovers();
        return;
    }
    moved_ = false;
    applyUnits();
    applyFeed();
    applySpeed();
    applyPathMode();
    applyTool();
    applySpindle();
    if (!setup_.machineCodes.empty()) applyMachineCodes();
    if (orders_[CodeGroup::Compensation] != nullptr) applyCompensation();
    applyWorkOffset();
    applyAxes();
    if (orders_[CodeGroup::ProgramFlow] != nullptr) applyFlow();
    if (orders_.has(CodeGroup::MacroCall, Order::ModalMacroEnd)) modalCall_.reset();
    if (modalCall_ && moved_ && reading_ == Reading::Program) callAfterMove();
    if ((words_.letters() & ~used_) != 0) reportLeftovers();
}

void Control::sortCodes() {
    for (const Code* code = words_.gBegin(); code != words_.gEnd(); ++code) sortCode(*code, true);
    // M behind a macro call is one of its arguments.
    if (callsMacro() && reading_ == Reading::Program) return;
    for (const Code* code = words_.mBegin(); code != words_.mEnd(); ++code) sortCode(*code, false);
    if (words_.mEnd() - words_.mBegin() > kMostMCodes) {
        remarks_.at(block(), *words_.mBegin()[kMostMCodes].word,
                    {Severity::Note, "many-m-codes",
                     say("More than {} M words in one block, which many controls refuse.", kMostMCodes),
                     tr("Spread them over several blocks.")});
    }
    if (reading_ != Reading::Program) refuseInProfile();
}

void Control::sortCode(const Code& code, bool isG) {
    if (code.group == CodeGroup::Unknown) {
        if (!isG && code.order == Order::Unknown && machineCode(*code.word) != nullptr) return;
        orders_.unknown = true;
        orders_.unknownG |= isG;
        reportUnknownCode(code);
        return;
    }
    const Code*& place = orders_[code.group];
    if (place != nullptr) {
        remarks_.at(block(), *code.word,
                    {Severity::Stop, "codes-conflict",
                     say("{} and {} exclude each other in one block; {} was taken.", program_.textOf(*place->word),
                         program_.textOf(*code.word), program_.textOf(*code.word)),
                     tr("Leave one of them out, or write two blocks.")});
    }
    place = &code;
}

// Depth of cut and allowance of a G71 in one block are both U; a macro may get several I, J and K. Anywhere else a
// letter stands once.
void Control::checkRepeatedWords() {
    if (callsMacro()) return;
    if (const Word* word = words_.repeated()) {
        remarks_.at(block(), *word,
                    {Severity::Stop, "word-twice",
                     say("The letter {} stands twice in this block; the last one was taken.", word->letter),
                     tr("Write each letter once per block, except G and M.")});
    }
    if (words_.secondU() == nullptr) return;
    const bool roughing = orders_.has(CodeGroup::OneShot, Order::RoughingAlong);
    if (roughing && words_.hasAny(BlockWords::bits({'P', 'Q'}))) return;
    remarks_.at(block(), *words_.secondU(),
                {Severity::Stop, "word-twice", tr("The letter U stands twice in this block; the first one was taken."),
                 tr("Write each letter once per block, except G and M.")});
}

// Inside P–Q only shape, feed and speed may stand: what else there is would be carried out once per pass, or not at
// all.
void Control::refuseInProfile() {
    for (CodeGroup group : {CodeGroup::Units, CodeGroup::WorkOffset, CodeGroup::OneShot, CodeGroup::Machine,
                            CodeGroup::ProgramFlow, CodeGroup::MacroCall}) {
        const Code* code = std::exchange(orders_[group], nullptr);
        if (code == nullptr) continue;
        const bool pauses =
            code->order == Order::Dwell || code->order == Order::ProgramStop || code->order == Order::OptionalStop;
        if (pauses) {
            orders_[group] = code;
            continue;
        }
        remarks_.at(block(), *code->word,
                    {Severity::Stop,
                     "not-allowed-in-profile",
                     say("{} cannot stand between the P and Q blocks of a cycle; it was left out.",
                         program_.textOf(*code->word)),
                     tr("Move it in front of the cycle."),
                     {},
                     true});
        // Axis words that stand with it are its own.
        orders_.unknown = true;
        orders_.unknownG |= group == CodeGroup::OneShot || group == CodeGroup::Machine;
    }
}

void Control::reportUnknownCode(const Code& code) {
    Remark remark{Severity::Warning,
                  "unknown-code",
                  say("{} is not carried out here; what it does on the machine was left out of this trial.",
                      program_.textOf(*code.word)),
                  tr("Prove this block on the machine, or write it with codes that are understood here."),
                  {},
                  true};
    if (code.word->letter == 'M' && code.order == Order::Unknown) {
        remark.remedy =
            say("Say in the set-up what it means and how long it takes, [m_codes.M{}], or prove this "
                "block on the machine.",
                figure(code.word->value));
    }
    if (code.order == Order::SideDrill || code.order == Order::SideTap || code.order == Order::SideBore) {
        remark.message = say("{} works from the side with a driven tool, which is not modelled; the hole is missing.",
                             program_.textOf(*code.word));
        remark.remedy = tr("Prove this hole on the machine.");
    }
    remarks_.at(block(), *code.word, std::move(remark));
}

void Control::reportLeftovers() {
    // They belong to the code that was not understood, and that was said.
    if (orders_.unknown || now_.suspended) return;
    const std::uint32_t left = words_.letters() & ~used_;
    const Block& b = program_.blocks[block()];
    for (const Word *word = program_.begin(b), *end = program_.end(b); word != end; ++word) {
        if (word->form == Word::Form::Missing || (left & bitOf(*word)) == 0) continue;
        if (word->letter == 'G' || word->letter == 'M') continue;
        const bool plainCorner = now_.modal.motion == 1 && !word->comma && (word->letter == 'C' || word->letter == 'R');
        remarks_.at(block(), *word,
                    {Severity::Warning,
                     "unknown-word",
                     say("{} has no meaning in this block and was left out.", program_.textOf(*word)),
                     plainCorner ? say("For a corner write ,{}; where the control takes it without comma, in blocks "
                                       "of one axis, say so with corner_words in the set-up.",
                                       word->letter)
                                 : tr("Take it out, or add the code it belongs to."),
                     {},
                     true});
        return;
    }
}

void Control::applyFlow() {
    switch (orders_[CodeGroup::ProgramFlow]->order) {
        case Order::ProgramStop:
            recorder_->stop(ProgramStop::Kind::Stop, block());
            return;
        case Order::OptionalStop:
            if (setup_.control.optionalStop) recorder_->stop(ProgramStop::Kind::Optional, block());
            return;
        case Order::SubprogramCall:
            return callSubprogram();
        case Order::SubprogramEnd:
            return programReturn();
        default:
            break;
    }
    if (!levels_.empty()) {
        remarks_.at(block(), *orders_[CodeGroup::ProgramFlow]->word,
                    {Severity::Warning, "program-end-in-subprogram",
                     say("The end of the program stands in program {}, which was called in {}; the run ends "
                         "here.",
                         levels_.back().text.number, program_.lineName(levels_.back().call)),
                     tr("End called programs with M99.")});
    }
    endedAt_ = levels_.empty() ? block() : levels_.front().call;
    noteCycleLeftOn(tr("the end of the program"), orders_[CodeGroup::ProgramFlow]->word);
    leaveCompensation(tr("the end of the program"), orders_[CodeGroup::ProgramFlow]->word);
    settle();
    recorder_->stop(ProgramStop::Kind::End, block());
    ended_ = true;
}

void Control::finish() {
    if (executed_ > 0) {
        leaveCompensation(tr("the end of the program"), nullptr);
        settle();
        checkShift();
        const bool stopped = !out_.stops.empty() && out_.stops.back().kind == ProgramStop::Kind::End;
        if (!stopped && !endless_) {
            remarks_.at(executing_,
                        {Severity::Warning, "no-program-end",
                         tr("The program ends here without M30 or M02; the control would stop with an alarm or wait."),
                         tr("End the program with M30.")});
        }
    }
    if (!endless_) lookForBlocksNotReached();
    checkTape();
    remarks_.close();
}

// Blocks of the program that runs which were not carried out: nothing is known about them. Behind its end that is
// mostly a slip, M30 for M03 above all; where the program jumped over them it is mostly meant.
void Control::lookForBlocksNotReached() {
    std::uint32_t behind = 0, jumped = 0;
    BlockId firstBehind = kNoBlock, firstJumped = kNoBlock;
    for (BlockId i = 0, end = endOfProgramText(program_); i < end; ++i) {
        const Block& b = program_.blocks[i];
        const bool only = b.wordCount == (b.sequenceNumber >= 0 ? 1 : 0) + (b.programNumber >= 0 ? 1 : 0);
        if (reached_[i] || isLeftOut(i) || (only && b.kind != Block::Kind::Statement)) continue;
        const bool isBehind = endedAt_ != kNoBlock && i > endedAt_;
        if ((isBehind ? behind : jumped)++ == 0) (isBehind ? firstBehind : firstJumped) = i;
    }
    if (behind > 0) {
        remarks_.at(firstBehind,
                    {Severity::Warning,
                     "blocks-behind-end",
                     behind == 1 ? say("The program ended in line {}; a block behind it was not carried out.",
                                       program_.lineOf(endedAt_))
                                 : say("The program ended in line {}; {} blocks behind it were not carried out.",
                                       program_.lineOf(endedAt_), behind),
                     tr("Check the code that ends the program (M30 for M03?), or take the blocks out."),
                     {{"blocks", behind}},
                     true});
    }
    if (jumped > 0) {
        remarks_.at(
            firstJumped,
            {Severity::Note,
             "blocks-not-reached",
             jumped == 1 ? std::string(tr("The program jumped over a block from here on; nothing is known about it."))
                         : say("The program jumped over {} blocks from here on; nothing is known about them.", jumped),
             tr("Try the program with figures that lead there as well."),
             {{"blocks", jumped}}});
    }
}

// An opening % wants a closing one (NISTIR 6556 sec. 3.1); without it a transfer may have broken off.
void Control::checkTape() {
    BlockId opening = kNoBlock;
    int marks = 0;
    bool words = false;
    for (std::size_t i = 0; i < program_.endBlockOf(0); ++i) {
        if (program_.blocks[i].kind == Block::Kind::Percent) {
            if (marks++ == 0 && !words) opening = static_cast<BlockId>(i);
        }
        words |= program_.blocks[i].wordCount > 0;
    }
    if (opening == kNoBlock || marks > 1 || !words) return;
    remarks_.at(opening,
                {Severity::Note, "percent-not-closed",
                 tr("The % that opens the program has no closing % at the end; the file may have been cut off."),
                 tr("Check the end of the program and add the closing %.")});
}

}  // namespace firstoff
