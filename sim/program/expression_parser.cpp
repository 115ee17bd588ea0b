#include "sim/program/expression_parser.h"

#include <array>
#include <cmath>

#include "sim/base/characters.h"
#include "sim/program/decimal.h"

namespace firstoff {

namespace {

using Op = Instruction::Op;

struct Function {
    std::string_view name;
    Op op;
};

// The functions of NISTIR 6556 sec. 3.3.2.4, and POW, which some controls have instead of `**`.
constexpr std::array<Function, 14> kFunctions = {{{"ABS", Op::Absolute},
                                                  {"ACOS", Op::ArcCosine},
                                                  {"ASIN", Op::ArcSine},
                                                  {"ATAN", Op::ArcTangent},
                                                  {"COS", Op::Cosine},
                                                  {"EXP", Op::Exponential},
                                                  {"FIX", Op::RoundDown},
                                                  {"FUP", Op::RoundUp},
                                                  {"LN", Op::NaturalLog},
                                                  {"POW", Op::Power},
                                                  {"ROUND", Op::Round},
                                                  {"SIN", Op::Sine},
                                                  {"SQRT", Op::SquareRoot},
                                                  {"TAN", Op::Tangent}}};
// For signals of the machine, which a trial does not have.
constexpr std::array<std::string_view, 6> kRefused = {"BIN", "BCD", "ADP", "PRM", "BITSET", "BITRST"};

struct Comparison {
    std::string_view name;
    Op op;
};
constexpr std::array<Comparison, 6> kComparisons = {{{"EQ", Op::Equal},
                                                     {"NE", Op::NotEqual},
                                                     {"GT", Op::Greater},
                                                     {"GE", Op::GreaterOrEqual},
                                                     {"LT", Op::Less},
                                                     {"LE", Op::LessOrEqual}}};

// Blanks, and what old transfers and editors leave behind.
bool isSilent(char c) {
    return c == ' ' || c == '\t' || c == '\v' || c == '\f' || c == '\x1a' || c == '\x7f';
}

bool startsWith(const char* at, const char* end, std::string_view capitals) {
    if (static_cast<std::size_t>(end - at) < capitals.size()) return false;
    for (std::size_t i = 0; i < capitals.size(); ++i) {
        if (upper(at[i]) != capitals[i]) return false;
    }
    return true;
}

bool bracketFollows(const char* at, const char* end) {
    while (at < end && isSilent(*at)) ++at;
    return at < end && *at == '[';
}

}  // namespace

std::size_t functionName(const char* at, const char* end) {
    for (const Function& function : kFunctions) {
        if (startsWith(at, end, function.name) && bracketFollows(at + function.name.size(), end)) {
            return function.name.size();
        }
    }
    return 0;
}

template <class Part>
Expression ExpressionParser::whole(Part part) {
    Expression result;
    result.first = static_cast<std::uint32_t>(code_.size());
    if ((this->*part)()) {
        result.count = static_cast<std::uint32_t>(code_.size()) - result.first;
    } else {
        code_.resize(result.first);
    }
    return result;
}

Expression ExpressionParser::expression() {
    return whole(&ExpressionParser::comparison);
}
Expression ExpressionParser::operand() {
    return whole(&ExpressionParser::signedValue);
}

Expression ExpressionParser::index() {
    Expression result = whole(&ExpressionParser::variable);
    // The last instruction reads the variable; what is before it says which one.
    if (!result.usable()) return result;
    Instruction& read = code_.back();
    if (read.op == Op::Variable) {
        read.op = Op::Number;
    } else {
        code_.pop_back();
        --result.count;
    }
    return result;
}

bool ExpressionParser::comparison() {
    if (!sum()) return false;
    bool logic = logicInSum_;
    for (;;) {
        skip();
        const char* const operatorAt = at_;
        const Comparison* found = nullptr;
        for (const Comparison& comparison : kComparisons) {
            if (found == nullptr && takeOperator(comparison.name)) found = &comparison;
        }
        if (found == nullptr) return true;
        if (!sum()) return false;
        emit(found->op, operatorAt);
        // `#1EQ1AND#2EQ2`: what binds first, the comparison or AND, differs.
        logic |= logicInSum_;
        if (logic && unsureAt_ == nullptr) unsureAt_ = operatorAt;
    }
}

bool ExpressionParser::sum() {
    if (!product()) return false;
    bool logicAnd = false;
    bool arithmetic = false;
    bool anyLogic = false;
    for (;;) {
        skip();
        const char* const operatorAt = at_;
        Op op;
        if (take('+')) {
            op = Op::Add;
        } else if (take('-')) {
            op = Op::Subtract;
        } else if (takeOperator("AND")) {
            op = Op::And;
        } else if (takeOperator("XOR")) {
            op = Op::Xor;
        } else if (takeOperator("OR")) {
            op = Op::Or;
        } else {
            logicInSum_ = anyLogic;
            return true;
        }
        anyLogic |= op != Op::Add && op != Op::Subtract;
        // AND binds like a multiplication on some controls, like an addition on others.
        const bool mixed = op == Op::And ? arithmetic : logicAnd;
        if (mixed && unsureAt_ == nullptr) unsureAt_ = operatorAt;
        logicAnd |= op == Op::And;
        arithmetic |= op != Op::And;
        if (!product()) return false;
        emit(op, operatorAt);
    }
}

bool ExpressionParser::product() {
    if (!power()) return false;
    for (;;) {
        skip();
        const char* const operatorAt = at_;
        Op op;
        if (take('*')) {
            op = Op::Multiply;
        } else if (take('/')) {
            op = Op::Divide;
        } else if (takeOperator("MOD")) {
            op = Op::Modulo;
        } else {
            return true;
        }
        if (!power()) return false;
        emit(op, operatorAt);
    }
}

// From left to right, as equal operators are: 2**3**2 is 64.
bool ExpressionParser::power() {
    if (!signedValue()) return false;
    for (;;) {
        skip();
        const char* const operatorAt = at_;
        if (!take('*')) return true;
        if (!take('*')) {
            at_ = operatorAt;
            return true;
        }
        if (!signedValue()) return false;
        emit(Op::Power, operatorAt);
    }
}

bool ExpressionParser::signedValue() {
    bool negative = false;
    const char* const signAt = at_;
    for (;;) {
        if (take('-')) {
            negative = !negative;
        } else if (!take('+')) {
            break;
        }
    }
    if (!value()) return false;
    if (!negative) return true;
    Instruction& last = code_.back();
    if (last.op == Op::Number) {
        last.number = last.number == 0 ? 0.0 : -last.number;
    } else {
        emit(Op::Negate, signAt);
    }
    return true;
}

bool ExpressionParser::value() {
    const char c = next();
    if (c == '#') {
        ++at_;
        return variable();
    }
    if (c == '[') return bracket();
    if (isLetter(c)) return function();
    if (!isDigit(c) && c != '.') return broken(ExpressionError::ValueMissing, at_);
    const char* const start = at_;
    const Decimal decimal = readDecimal(at_, end_);
    if (decimal.kind == Decimal::Fault::NoDigits) return broken(ExpressionError::ValueMissing, at_);
    at_ = decimal.end;
    if (decimal.kind != Decimal::Fault::None) return broken(ExpressionError::BadNumber, start, at_ - start);
    emit(Op::Number, start, decimal.value);
    return true;
}

// Behind the `#`, which is where messages point: a number, another variable, or a bracket.
bool ExpressionParser::variable() {
    const char* const start = at_ - 1;
    if (++depth_ > kDeepestExpression) return broken(ExpressionError::TooDeep, start);
    const char c = next();
    bool good = false;
    if (c == '#') {
        ++at_;
        good = variable();
    } else if (c == '[') {
        good = bracket();
    } else if (isDigit(c) || c == '.') {
        const Decimal decimal = readDecimal(at_, end_);
        const double whole = std::round(decimal.value);
        at_ = decimal.end;
        const bool fits = decimal.kind == Decimal::Fault::None && std::abs(decimal.value - whole) <= kWholeWithin &&
                          whole <= kLargestIndex;
        if (!fits) return broken(ExpressionError::BadIndex, start + 1, at_ - start - 1);
        emit(Op::Variable, start, whole);
        --depth_;
        return true;
    } else {
        return broken(ExpressionError::ValueMissing, at_);
    }
    --depth_;
    if (good) emit(Op::Indirect, start);
    return good;
}

bool ExpressionParser::bracket() {
    const char* const start = at_;
    if (++depth_ > kDeepestExpression) return broken(ExpressionError::TooDeep, start);
    if (!take('[')) return broken(ExpressionError::BracketMissing, at_);
    if (!comparison()) return false;
    if (!take(']')) return broken(ExpressionError::BracketMissing, start);
    --depth_;
    return true;
}

bool ExpressionParser::function() {
    const char* const start = at_;
    const std::size_t known = functionName(at_, end_);
    if (known == 0) {
        const char* letters = at_;
        while (letters < end_ && isLetter(*letters)) ++letters;
        bool refused = false;
        for (std::string_view name : kRefused) refused |= startsWith(at_, end_, name);
        const auto error = refused ? ExpressionError::RefusedFunction : ExpressionError::UnknownFunction;
        return broken(error, start, letters - start);
    }
    at_ += known;
    Op op = Op::Number;
    for (const Function& function : kFunctions) {
        if (function.name.size() == known && startsWith(start, end_, function.name)) op = function.op;
    }
    if (op == Op::ArcTangent) return secondOfArcTangent(start);
    if (op != Op::Power) {
        if (!bracket()) return false;
        emit(op, start);
        return true;
    }
    take('[');
    if (++depth_ > kDeepestExpression) return broken(ExpressionError::TooDeep, start);
    if (!comparison()) return false;
    if (!take(',')) return broken(ExpressionError::ValueMissing, at_);
    if (!comparison()) return false;
    if (!take(']')) return broken(ExpressionError::BracketMissing, start);
    --depth_;
    emit(op, start);
    return true;
}

// `ATAN[a]/[b]`, `ATAN[a,b]`, or `ATAN[a]` alone.
bool ExpressionParser::secondOfArcTangent(const char* name) {
    if (++depth_ > kDeepestExpression) return broken(ExpressionError::TooDeep, name);
    take('[');
    if (!comparison()) return false;
    const bool inside = take(',');
    if (inside && !comparison()) return false;
    if (!take(']')) return broken(ExpressionError::BracketMissing, name);
    bool two = inside;
    const char* const behind = at_;
    if (!inside && take('/')) {
        if (next() == '[') {
            two = true;
            if (!bracket()) return false;
        } else {
            at_ = behind;  // a division of the angle
        }
    }
    --depth_;
    emit(two ? Op::ArcTangentOfTwo : Op::ArcTangent, name);
    return true;
}

bool ExpressionParser::takeOperator(std::string_view word) {
    skip();
    if (!startsWith(at_, end_, word)) return false;
    at_ += word.size();
    return true;
}

bool ExpressionParser::takeWord(std::string_view word) {
    return takeOperator(word);
}

bool ExpressionParser::take(char c) {
    if (next() != c) return false;
    ++at_;
    return true;
}

char ExpressionParser::next() {
    skip();
    return at_ < end_ ? *at_ : '\0';
}

bool ExpressionParser::atEnd() {
    skip();
    return at_ == end_;
}

void ExpressionParser::skip() {
    while (at_ < end_) {
        if (isSilent(*at_)) {
            ++at_;
        } else if (*at_ == '(') {
            while (at_ < end_ && *at_ != ')') ++at_;
            if (at_ < end_) ++at_;
        } else if (*at_ == ';') {
            at_ = end_;
        } else {
            return;
        }
    }
}

void ExpressionParser::emit(Op op, const char* at, double number) {
    code_.push_back({number, static_cast<std::uint32_t>(at - base_), op});
}

void ExpressionParser::fail(ExpressionError error, const char* at, std::size_t length) {
    if (error_ != ExpressionError::None) return;
    error_ = error;
    errorAt_ = at;
    errorLength_ = length > 0 ? length : 1;
}

bool ExpressionParser::broken(ExpressionError error, const char* at, std::size_t length) {
    fail(error, at, length);
    return false;
}

}  // namespace firstoff
