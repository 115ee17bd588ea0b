#include "sim/control/expression_values.h"

#include "sim/base/say.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

std::string causeOf(const ExpressionTrouble& trouble) {
    const std::string number = figure(trouble.value);
    switch (trouble.fault) {
        case ExpressionFault::DivisionByZero:
            return say("{} is divided by zero", number);
        case ExpressionFault::RootBelowZero:
            return say("The square root of {} is asked for", number);
        case ExpressionFault::LogNotAboveZero:
            return say("The logarithm of {} is asked for", number);
        case ExpressionFault::NoSuchAngle:
            return say("There is no angle, or no tangent, for {}", number);
        case ExpressionFault::NoPower:
            return say("{} has no such power", number);
        case ExpressionFault::NullIndex:
            return tr("The number of a variable is null: a variable that was not set stands behind #");
        case ExpressionFault::BadIndex:
            return say("{} is no number of a variable", number);
        default:
            return tr("The result is too large for any number");
    }
}

std::string doubtOf(ExpressionDoubt doubt) {
    switch (doubt) {
        case ExpressionDoubt::Logic:
            return tr(
                "AND, OR or XOR joins numbers other than 0 and 1; here it was taken bit by bit on whole numbers, "
                "some controls only ask whether each is zero.");
        case ExpressionDoubt::RoundsBelow:
            return tr(
                "FIX or FUP of a number below zero: here FIX goes down and FUP up (FIX[-2.8] is -3), on some "
                "controls FIX drops the decimals and FUP goes away from zero.");
        case ExpressionDoubt::AngleRange:
            return tr(
                "ATAN of two numbers with one below zero: here it lies between -180 and 180 degrees, on some "
                "controls between 0 and 360.");
        case ExpressionDoubt::Remainder:
            return tr(
                "MOD with a number that is below zero or not whole: here the remainder has the sign of the first "
                "number, controls differ.");
        default:
            return tr("Two numbers are compared that differ by rounding only; here they count as equal.");
    }
}

}  // namespace

std::optional<double> ExpressionValues::value(BlockId block, const Expression& expression) {
    if (!expression.usable()) return std::nullopt;
    ExpressionTrouble trouble;
    const double value =
        evaluate(program_.instructions.data() + expression.first, expression.count, variables_, trouble);
    if (trouble.doubt != ExpressionDoubt::None || trouble.fault != ExpressionFault::None) report(block, trouble);
    if (trouble.fault != ExpressionFault::None) return std::nullopt;
    return value;
}

const Word* ExpressionValues::valued(BlockId block, const Word& word, bool& failed) {
    const auto number = static_cast<std::size_t>(word.value);
    const Expression& expression = program_.expressions[number];
    const auto value = this->value(block, expression);
    failed |= !value;
    if (value && isNull(*value)) noteNull(block, word);
    if (!value || isNull(*value)) return nullptr;
    if (words_.empty()) words_.resize(program_.expressions.size());
    Word& result = words_[number];
    result = word;
    result.value = *value;
    // What a variable holds is a length as it stands. Words that count need no point.
    const bool counts = word.letter == 'P' || word.letter == 'Q' || word.letter == 'D';
    result.hasPoint = !counts || *value != std::floor(*value);
    reportRounding(block, word, expression, *value);
    return &result;
}

// An axis that then stays where it is may be meant, or a variable that was forgotten.
void ExpressionValues::noteNull(BlockId block, const Word& word) {
    const bool axis = word.letter == 'X' || word.letter == 'Z' || word.letter == 'U' || word.letter == 'W';
    if (!axis || word.comma || !said_.insert(word.offset).second) return;
    remarks_.at(block, word,
                {Severity::Note, "word-without-value",
                 say("{} has no value here, as if it were not written: the axis stays.", program_.textOf(word)),
                 tr("Set the variable, or see whether the call gives its argument.")});
}

// ROUND in a length: on some controls to the least increment instead of to a whole number.
void ExpressionValues::reportRounding(BlockId block, const Word& word, const Expression& expression, double value) {
    if (expression.count < 2 || word.letter == 'G' || word.letter == 'M' || word.letter == 'N') return;
    bool rounds = false;
    for (std::uint32_t i = 0; i < expression.count; ++i) {
        rounds |= program_.instructions[expression.first + i].op == Instruction::Op::Round;
    }
    if (!rounds || !said_.insert(word.offset).second) return;
    remarks_.at(block, word,
                {Severity::Warning,
                 "controls-calculate-otherwise",
                 say("{} rounds inside a word; here to a whole number ({}), on some controls to the least "
                     "increment of the word.",
                     program_.textOf(word), figure(value)),
                 tr("Round in a statement of its own before."),
                 {},
                 true});
}

void ExpressionValues::report(BlockId block, const ExpressionTrouble& trouble) {
    Word at;
    if (trouble.fault != ExpressionFault::None) {
        at.offset = trouble.faultAt;
        at.length = 1;
        if (!said_.insert(at.offset).second) return;
        remarks_.at(block, at,
                    {Severity::Stop, "cannot-calculate",
                     say("{}: the control stops with an alarm. What needs this value was left out.", causeOf(trouble)),
                     tr("Check what the variables hold here, or test it with IF before.")});
        return;
    }
    at.offset = trouble.doubtAt;
    at.length = 1;
    if (!said_.insert(at.offset).second) return;
    remarks_.at(block, at,
                {Severity::Warning,
                 "controls-calculate-otherwise",
                 doubtOf(trouble.doubt),
                 tr("Write it so that all controls agree, or prove this part of the program on the machine."),
                 {},
                 true});
}

}  // namespace firstoff
