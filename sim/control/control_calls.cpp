// Programs that call programs: M98 and M99, G65, G66 and G67. The rules are common practice, no source.
#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/control/call_arguments.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

// As many of each kind stand within one another on the usual control.
constexpr std::ptrdiff_t kMostLevels = 4;
// `M98 P31234` is three times program 1234.
constexpr double kProgramFigures = 10000;
constexpr double kMostRepeats = 99'999'999;

bool isWholeUpTo(double value, double most) {
    return value >= 0 && value <= most && std::abs(value - std::round(value)) <= kWholeWithin;
}

}  // namespace

// L, once if it is not given; nothing if it makes no sense.
std::optional<long> Control::repeats() {
    if (!words_.has('L')) return 1;
    use(BlockWords::bit('L'));
    const double value = words_.number('L');
    if (isWholeUpTo(value, kMostRepeats) && value >= 1) return std::lround(value);
    remarks_.at(block(), *words_.word('L'),
                {Severity::Warning,
                 "bad-repeats",
                 say("L{} is no number of repeats; nothing was called.", figure(value)),
                 tr("Write how often it is called, 1 or more; or leave L out."),
                 {},
                 true});
    return std::nullopt;
}

// The program that P names. M98 may have repeats in front of the last four figures, if there is no L.
const ProgramText* Control::calledProgram(long* repeatsInP) {
    use(BlockWords::bit('P'));
    const Word* word = words_.word('P');
    if (word == nullptr || !isWholeUpTo(word->value, 1e9)) {
        if (words_.axesUnknown()) return nullptr;
        remarks_.at(block(), word,
                    {Severity::Stop, "call-without-program",
                     word == nullptr ? std::string(tr("The call does not say which program: there is no P."))
                                     : say("P{} is no number of a program.", figure(word->value)),
                     tr("Write P with the number of the program.")});
        return nullptr;
    }
    const double value = std::round(word->value);
    double number = value;
    if (repeatsInP != nullptr && value >= kProgramFigures) {
        number = std::fmod(value, kProgramFigures);
        *repeatsInP = std::lround((value - number) / kProgramFigures);
    }
    if (!texts_) texts_.emplace(program_);
    const ProgramText* text = texts_->find(static_cast<std::int32_t>(number));
    if (text == nullptr && number != value) {
        text = texts_->find(static_cast<std::int32_t>(value));
        if (text != nullptr) *repeatsInP = 1;
    }
    if (text == nullptr) {
        remarks_.at(
            block(), *word,
            {Severity::Stop,
             "subprogram-not-found",
             say("Program {} is neither on this tape nor in a file beside it; the call was left out.", figure(number)),
             say("Put O{0} behind this program, or a file O{0}.nc into its folder.", figure(number)),
             {{"program", number}}});
        return nullptr;
    }
    checkCalled(*text, *word);
    return text;
}

void Control::checkCalled(const ProgramText& text, const Word& word) {
    if (const ProgramText* other = texts_->other(text)) {
        remarks_.at(block(), word,
                    {Severity::Warning, "program-number-twice",
                     say("Program {} is there twice, in {} and in {}; the first was called. A control refuses "
                         "to load the second, or puts it in place of the first.",
                         text.number, program_.lineName(text.first), program_.lineName(other->first)),
                     tr("Take one of them out.")});
    }
    if (text.behindTape) {
        remarks_.at(
            block(), word,
            {Severity::Warning,
             "program-behind-tape-end",
             say("Program {} stands behind the closing % of its file, which many controls do not read.", text.number),
             tr("Put it in front of the %, or into a file of its own."),
             {},
             true});
    }
    if (text.otherNumber) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "program-number-differs",
                     say("{} was taken as program {} because of its name, but says another O number inside.",
                         program_.parts[program_.partOf(text.first)].name, text.number),
                     tr("Give the file the number that is written in it."),
                     {},
                     true});
    }
}

void Control::callSubprogram() {
    const bool byL = words_.has('L');
    long inP = 1;
    const ProgramText* text = calledProgram(byL ? nullptr : &inP);
    const auto often = repeats();
    if (text == nullptr || !often) return;
    enter(*text, byL ? *often : inP, nullptr);
}

// G65 calls at once; G66 from now on after every block with a move.
void Control::macroBlock() {
    const bool modal = orders_.has(CodeGroup::MacroCall, Order::ModalMacroCall);
    const Code* call = orders_[modal ? CodeGroup::MacroCall : CodeGroup::OneShot];
    for (const Code* code = words_.gBegin(); code != words_.gEnd(); ++code) {
        if (code->word == call->word) continue;
        remarks_.at(block(), *code->word,
                    {Severity::Stop, "codes-conflict",
                     say("{} stands beside {}, which takes the whole block; it was left out.",
                         program_.textOf(*code->word), program_.textOf(*call->word)),
                     tr("Give it a block of its own.")});
    }
    const ProgramText* text = calledProgram(nullptr);
    const auto often = repeats();
    const CallArguments arguments = callArguments(program_, block(), values_);
    use(arguments.letters);
    reportArguments(arguments);
    if (text == nullptr || !often || arguments.failed) return;
    if (!modal) return enter(*text, *often, &arguments.locals);
    if (modalCall_) {
        remarks_.at(
            block(), *call->word,
            {Severity::Warning,
             "nested-modal-call",
             tr("G66 is given while another is on: controls then call both, one from within the other. Here only "
                "the new one is called."),
             tr("Cancel the first one with G67."),
             {},
             true});
    }
    modalCall_ = ModalCall{*text, *often, arguments.locals};
}

void Control::reportArguments(const CallArguments& arguments) {
    if (arguments.unsure != nullptr) {
        remarks_.at(
            block(), *arguments.unsure,
            {Severity::Warning,
             "argument-order",
             tr("I, J and K are not in alphabetical order: they were taken as sets, one after the other, so that "
                "they stand in other variables than #4, #5 and #6; controls differ."),
             tr("Write I, J, K in this order."),
             {},
             true});
    }
    if (arguments.tooMany != nullptr) {
        remarks_.at(
            block(), *arguments.tooMany,
            {Severity::Stop, "too-many-arguments", tr("There is no variable left for a word beyond ten I, J, K."),
             tr("Give the macro fewer values, or commons #100 and up.")});
    }
    using WholeNumbers = ControlOptions::WholeNumbers;
    const bool increments = setup_.control.wholeNumbers == WholeNumbers::Increments;
    const bool known = setup_.control.wholeNumbers == WholeNumbers::Units || (lackOfPointSaid_ && !increments);
    if (arguments.noPoint != nullptr && !known) {
        lackOfPointSaid_ = true;
        remarks_.at(block(), *arguments.noPoint,
                    {increments ? Severity::Warning : Severity::Note,
                     "length-without-point",
                     say("{} has no decimal point; the macro gets the number as it stands. A control that "
                         "counts such words in least increments may hand over another one.",
                         program_.textOf(*arguments.noPoint)),
                     tr("Write the decimal point."),
                     {},
                     increments});
    }
}

void Control::callAfterMove() {
    const ModalCall call = *modalCall_;
    enter(call.text, call.repeats, &call.locals);
}

// `arguments`: of a macro; null for a subprogram, which works with its caller's variables.
void Control::enter(const ProgramText& text, long repeats, const Variables::Locals* arguments) {
    const bool macro = arguments != nullptr;
    const auto same = std::count_if(levels_.begin(), levels_.end(), [&](const auto& l) { return l.macro == macro; });
    if (same >= kMostLevels) {
        return halt(block(), {Severity::Stop, "call-too-deep",
                              macro ? say("More than {} macros call one another here.", kMostLevels)
                                    : say("More than {} subprograms call one another here.", kMostLevels),
                              tr("Call fewer programs from within each other; a program must not call itself.")});
    }
    CallLevel level;
    level.text = text;
    level.call = block();
    level.resume = next_;
    level.callerFirst = first_;
    level.callerEnd = end_;
    level.callerShown = shownCall_;
    level.callerModal = modalCall_;
    level.repeatsLeft = repeats;
    level.macro = macro;
    if (macro) {
        level.arguments = *arguments;
        variables_.enter(*arguments);
        modalCall_.reset();
    }
    levels_.push_back(level);
    const bool inOwnFile = program_.partOf(text.first) == 0;
    showCall(inOwnFile ? kNoBlock : shownCall_ != kNoBlock ? shownCall_ : block());
    setRange(text.first, text.end);
    next_ = text.first;
}

void Control::setRange(BlockId first, BlockId end) {
    first_ = first;
    end_ = end;
    search_.setRange(first, end);
}

void Control::showCall(BlockId call) {
    shownCall_ = call;
    mainRecorder_.setShown(call);
}

// M99: again while there are repeats left, else back behind the call, or to the caller's block with the number P.
void Control::programReturn() {
    std::optional<std::int32_t> target;
    if (words_.has('P')) {
        use(BlockWords::bit('P'));
        const double value = words_.number('P');
        if (!isWholeUpTo(value, kMostRepeats)) {
            return halt(block(), {Severity::Stop, "bad-jump",
                                  say("M99 goes back to P{}, which is no number of a block.", figure(value)),
                                  tr("Write the N number of a block of the calling program.")});
        }
        target = static_cast<std::int32_t>(std::lround(value));
    }
    if (levels_.empty()) {
        if (target) return jumpTo(block(), *target);
        remarks_.at(block(), *orders_[CodeGroup::ProgramFlow]->word,
                    {Severity::Stop, "endless-program",
                     tr("M99 sends the main program back to its beginning: it would run without end. It was run once."),
                     tr("End the program with M30, or M02.")});
        ended_ = endless_ = true;
        return;
    }
    if (!target && levels_.back().repeatsLeft > 1) return repeatProgram();
    leave();
    if (target) jumpTo(levelCall_, *target);
}

void Control::repeatProgram() {
    CallLevel& level = levels_.back();
    --level.repeatsLeft;
    if (level.macro) {
        variables_.leave();
        variables_.enter(level.arguments);
    }
    goBack(block(), level.text.first);
}

void Control::leave() {
    const CallLevel level = levels_.back();
    levels_.pop_back();
    if (level.macro) {
        variables_.leave();
        modalCall_ = level.callerModal;
    }
    showCall(level.callerShown);
    setRange(level.callerFirst, level.callerEnd);
    next_ = level.resume;
    levelCall_ = level.call;
}

// The text of a called program is at its end without M99.
void Control::endOfCalledText() {
    const CallLevel& level = levels_.back();
    remarks_.at(level.call, {Severity::Stop, "subprogram-without-end",
                             say("Program {} ends without M99; a control would stop with an alarm or run on "
                                 "into what follows. It was left here.",
                                 level.text.number),
                             tr("End the called program with M99.")});
    leave();
}

}  // namespace firstoff
