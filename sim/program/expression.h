// Expressions of a macro program: `[#1+2*SIN[#3]]`. Made once into a short list of instructions, then carried out as
// often as the program asks. Knows no lathe: what a variable holds is the reader's affair.
//
// Rules (NISTIR 6556 sec. 3.3.2.2 to 3.3.2.4): `#` binds first, then `**`, then `* / MOD`, then `+ - OR XOR AND`; equal
// level from left to right; angles in degrees. Comparisons, which that report does not have, bind last. Null, the value
// of a variable never set, is common practice, no source: it counts as 0 in arithmetic, but EQ and NE tell it from 0.
#pragma once

#include <cmath>
#include <cstdint>
#include <limits>

namespace firstoff {

// Null is carried as a value that no arithmetic makes: a result that is no number is a fault instead.
inline constexpr double kNull = std::numeric_limits<double>::quiet_NaN();
inline bool isNull(double value) {
    return std::isnan(value);
}

struct Instruction {
    enum class Op : std::uint8_t {
        Number,
        Variable,  // number: its index
        Indirect,  // the variable whose index is on top
        Negate,
        Add,
        Subtract,
        Multiply,
        Divide,
        Modulo,
        Power,
        And,
        Or,
        Xor,
        Equal,
        NotEqual,
        Greater,
        GreaterOrEqual,
        Less,
        LessOrEqual,
        Sine,
        Cosine,
        Tangent,
        ArcSine,
        ArcCosine,
        ArcTangent,
        ArcTangentOfTwo,  // ATAN[a]/[b], ATAN[a,b]
        SquareRoot,
        Absolute,
        Round,
        RoundDown,  // FIX
        RoundUp,    // FUP
        NaturalLog,
        Exponential,
    };
    double number = 0;
    std::uint32_t offset = 0;  // where it stands in Program::text
    Op op = Op::Number;
};

// Instructions first … first + count of the program's list, in the order in which they are carried out.
struct Expression {
    std::uint32_t first = 0;
    std::uint32_t count = 0;  // 0: could not be read, which was reported
    bool usable() const { return count > 0; }
};

// What an expression met while it was carried out. Faults stop a control; doubts are rules in which controls differ
// and which decided the value here.
enum class ExpressionFault : std::uint8_t {
    None,
    DivisionByZero,
    RootBelowZero,
    LogNotAboveZero,
    NoSuchAngle,  // ASIN, ACOS of more than 1; TAN of 90 degrees
    NoPower,      // below zero to a broken power, zero to one below zero
    NullIndex,    // #[#0]
    BadIndex,     // below zero, or not whole
    TooLarge,     // no number holds the result
};
enum class ExpressionDoubt : std::uint8_t {
    None,
    Logic,        // AND OR XOR of numbers other than 0 and 1
    RoundsBelow,  // FIX, FUP of a number below zero
    AngleRange,   // ATAN of two, beyond ±90 degrees or below zero
    Remainder,    // MOD with a number below zero or a broken one
    NearlyEqual,  // compared numbers differ by rounding only
};

struct ExpressionTrouble {
    ExpressionFault fault = ExpressionFault::None;
    std::uint32_t faultAt = 0;  // in Program::text
    double value = 0;           // the figure that was wrong
    ExpressionDoubt doubt = ExpressionDoubt::None;
    std::uint32_t doubtAt = 0;
};

class VariableReader {
public:
    // The value of #index, kNull when it was never set. `offset`: where it is asked for in Program::text.
    virtual double read(std::int32_t index, std::uint32_t offset) = 0;

protected:
    ~VariableReader() = default;
};

inline constexpr int kDeepestExpression = 32;  // brackets within brackets
inline constexpr std::int32_t kLargestIndex = 99999;

// A number that should be whole counts as whole within 0.0001 (NISTIR 6556 sec. 3.3.2.1).
inline constexpr double kWholeWithin = 1e-4;

// Carries out `count` instructions, at least one. Null when the value is null and also after a fault.
double evaluate(const Instruction* code, std::uint32_t count, VariableReader& variables, ExpressionTrouble& trouble);

}  // namespace firstoff
