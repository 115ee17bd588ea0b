#include "sim/program/expression.h"

#include <array>
#include <cassert>
#include <cstdint>

namespace firstoff {

namespace {

using Op = Instruction::Op;

constexpr double kRadiansPerDegree = 3.14159265358979323846 / 180;

// A bracket holds open at most a comparison, a sum, a product, a power and the first number of an ATAN.
constexpr std::size_t kStack = (kDeepestExpression + 2) * 6;

// Numbers that differ by less than this part of their size differ only because no binary number is a tenth: adding 0.1
// ten times gives 1 less 1.1e-16.
constexpr double kRoundingPart = 1e-9;
constexpr double kRoundingLeast = 1e-12;

// Beyond this no double tells whole numbers apart.
constexpr double kLargestWhole = 9e15;

class Machine {
public:
    Machine(VariableReader& variables, ExpressionTrouble& trouble) : variables_(variables), trouble_(trouble) {}

    double run(const Instruction* code, std::uint32_t count) {
        for (const Instruction* at = code; at != code + count; ++at) {
            step(*at);
            if (trouble_.fault != ExpressionFault::None) return kNull;
        }
        assert(size_ == 1);
        return stack_[0];
    }

private:
    void push(double value) { stack_[size_++] = value; }
    double pop() { return stack_[--size_]; }
    double number() {
        const double value = pop();
        return isNull(value) ? 0 : value;
    }
    void fail(const Instruction& at, ExpressionFault fault, double value) {
        trouble_.fault = fault;
        trouble_.faultAt = at.offset;
        trouble_.value = value;
        push(kNull);
    }
    void doubt(const Instruction& at, ExpressionDoubt doubt) {
        if (trouble_.doubt != ExpressionDoubt::None) return;
        trouble_.doubt = doubt;
        trouble_.doubtAt = at.offset;
    }
    // What arithmetic gave; beyond all numbers is a fault.
    void result(const Instruction& at, double value) {
        if (!std::isfinite(value)) return fail(at, ExpressionFault::TooLarge, value);
        push(value == 0 ? 0.0 : value);  // no minus zero
    }

    void step(const Instruction& at) {
        switch (at.op) {
            case Op::Number:
                return push(at.number);
            case Op::Variable:
                return push(variables_.read(static_cast<std::int32_t>(at.number), at.offset));
            case Op::Indirect:
                return indirect(at);
            case Op::Negate: {
                const double value = pop();
                return push(isNull(value) || value == 0 ? value : -value);
            }
            default:
                return at.op < Op::Sine || at.op == Op::ArcTangentOfTwo ? ofTwo(at) : ofOne(at, number());
        }
    }

    void indirect(const Instruction& at) {
        const double index = pop();
        if (isNull(index)) return fail(at, ExpressionFault::NullIndex, 0);
        const double whole = std::round(index);
        if (std::abs(index - whole) > kWholeWithin || whole < 0 || whole > kLargestIndex) {
            return fail(at, ExpressionFault::BadIndex, index);
        }
        push(variables_.read(static_cast<std::int32_t>(whole), at.offset));
    }

    void ofTwo(const Instruction& at) {
        const double right = pop();
        const double left = pop();
        if (at.op >= Op::Equal && at.op <= Op::LessOrEqual) return push(compare(at, left, right) ? 1.0 : 0.0);
        const double b = isNull(right) ? 0 : right;
        const double a = isNull(left) ? 0 : left;
        switch (at.op) {
            case Op::Add:
                return result(at, a + b);
            case Op::Subtract:
                return result(at, a - b);
            case Op::Multiply:
                return result(at, a * b);
            case Op::Divide:
                return b == 0 ? fail(at, ExpressionFault::DivisionByZero, a) : result(at, a / b);
            case Op::Modulo:
                return modulo(at, a, b);
            case Op::Power:
                return power(at, a, b);
            case Op::ArcTangentOfTwo:
                return angleOfTwo(at, a, b);
            default:
                return logic(at, a, b);
        }
    }

    void modulo(const Instruction& at, double a, double b) {
        if (b == 0) return fail(at, ExpressionFault::DivisionByZero, a);
        if (a < 0 || b < 0 || a != std::floor(a) || b != std::floor(b)) doubt(at, ExpressionDoubt::Remainder);
        result(at, std::fmod(a, b));
    }

    void power(const Instruction& at, double a, double b) {
        const bool none = (a < 0 && b != std::floor(b)) || (a == 0 && b < 0);
        if (none) return fail(at, ExpressionFault::NoPower, a);
        result(at, std::pow(a, b));
    }

    void angleOfTwo(const Instruction& at, double a, double b) {
        if (a < 0 || b < 0) doubt(at, ExpressionDoubt::AngleRange);
        result(at, std::atan2(a, b) / kRadiansPerDegree);
    }

    // Bit by bit on the numbers rounded to whole ones, which for 0 and 1, as comparisons give them, is also what true
    // and false would give.
    void logic(const Instruction& at, double a, double b) {
        if ((a != 0 && a != 1) || (b != 0 && b != 1)) doubt(at, ExpressionDoubt::Logic);
        if (std::abs(a) > kLargestWhole || std::abs(b) > kLargestWhole) return fail(at, ExpressionFault::TooLarge, a);
        const auto left = static_cast<std::int64_t>(std::round(a));
        const auto right = static_cast<std::int64_t>(std::round(b));
        const std::int64_t bits = at.op == Op::And ? left & right : at.op == Op::Or ? left | right : left ^ right;
        result(at, static_cast<double>(bits));
    }

    bool compare(const Instruction& at, double left, double right) {
        if (isNull(left) || isNull(right)) {
            if (at.op == Op::Equal) return isNull(left) && isNull(right);
            if (at.op == Op::NotEqual) return isNull(left) != isNull(right);
        }
        const double a = isNull(left) ? 0 : left;
        const double b = isNull(right) ? 0 : right;
        const double apart = std::abs(a - b);
        const bool same = apart <= kRoundingLeast + kRoundingPart * std::abs(b);
        if (same && apart > 0) doubt(at, ExpressionDoubt::NearlyEqual);
        switch (at.op) {
            case Op::Equal:
                return same;
            case Op::NotEqual:
                return !same;
            case Op::Greater:
                return !same && a > b;
            case Op::GreaterOrEqual:
                return same || a > b;
            case Op::Less:
                return !same && a < b;
            default:
                return same || a < b;
        }
    }

    void ofOne(const Instruction& at, double a) {
        switch (at.op) {
            case Op::Sine:
                return result(at, sine(a));
            case Op::Cosine:
                return result(at, sine(a + 90));
            case Op::Tangent: {
                const double below = sine(a + 90);
                return below == 0 ? fail(at, ExpressionFault::NoSuchAngle, a) : result(at, sine(a) / below);
            }
            case Op::ArcSine:
                if (std::abs(a) > 1) return fail(at, ExpressionFault::NoSuchAngle, a);
                return result(at, std::asin(a) / kRadiansPerDegree);
            case Op::ArcCosine:
                if (std::abs(a) > 1) return fail(at, ExpressionFault::NoSuchAngle, a);
                return result(at, std::acos(a) / kRadiansPerDegree);
            case Op::ArcTangent:
                return result(at, std::atan(a) / kRadiansPerDegree);
            case Op::SquareRoot:
                return a < 0 ? fail(at, ExpressionFault::RootBelowZero, a) : result(at, std::sqrt(a));
            case Op::Absolute:
                return result(at, std::abs(a));
            case Op::Round:
                return result(at, std::round(a));
            case Op::RoundDown:
            case Op::RoundUp:
                if (a < 0 && a != std::floor(a)) doubt(at, ExpressionDoubt::RoundsBelow);
                return result(at, at.op == Op::RoundUp ? std::ceil(a) : std::floor(a));
            case Op::NaturalLog:
                return a <= 0 ? fail(at, ExpressionFault::LogNotAboveZero, a) : result(at, std::log(a));
            default:
                return result(at, std::exp(a));
        }
    }

    // Of degrees: exact at the quarter turns, so that COS[90] is nothing at all.
    static double sine(double degrees) {
        const double turned = std::remainder(degrees, 360.0);
        if (turned == 0 || std::abs(turned) == 180) return 0;
        if (std::abs(turned) == 90) return turned > 0 ? 1 : -1;
        return std::sin(turned * kRadiansPerDegree);
    }

    VariableReader& variables_;
    ExpressionTrouble& trouble_;
    std::size_t size_ = 0;
    double stack_[kStack];  // not set: only what was pushed is read
};

}  // namespace

double evaluate(const Instruction* code, std::uint32_t count, VariableReader& variables, ExpressionTrouble& trouble) {
    assert(count > 0);
    // By far the most frequent: a number, a variable.
    if (count == 1 && code->op == Op::Number) return code->number;
    if (count == 1 && code->op == Op::Variable) {
        return variables.read(static_cast<std::int32_t>(code->number), code->offset);
    }
    return Machine(variables, trouble).run(code, count);
}

}  // namespace firstoff
