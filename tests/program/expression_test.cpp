// Expressions against NISTIR 6556 (rows TC011 to TC021 of tests/reference/turning_code_facts.csv), and the rules for
// null, which are common practice without a source.
#include "sim/program/expression.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>

#include "sim/program/program.h"

namespace firstoff {
namespace {

// A few variables by hand; whatever is not in it is null.
class Shelf final : public VariableReader {
public:
    std::map<std::int32_t, double> held{{1, 3}, {2, 5}, {3, -2.5}, {4, 10}, {5, 0}, {10, 7}};
    double read(std::int32_t index, std::uint32_t) override {
        const auto found = held.find(index);
        return found == held.end() ? kNull : found->second;
    }
};

struct Result {
    double value = 0;
    ExpressionTrouble trouble;
    std::string finding;  // of reading
};

Result calculate(const std::string& text) {
    const Program program = readProgram("#100=" + text + "\n", "test");
    Result result;
    if (!program.findings.empty()) result.finding = program.findings[0].code;
    const Statement& statement = program.statements.at(0);
    if (statement.kind != Statement::Kind::Assign) return result;
    const Expression& value = program.assignments.at(statement.firstAssignment).value;
    Shelf shelf;
    result.value = evaluate(program.instructions.data() + value.first, value.count, shelf, result.trouble);
    return result;
}

struct ValueRow {
    const char* text;
    double value;
    ExpressionDoubt doubt = ExpressionDoubt::None;
};

class Value : public testing::TestWithParam<ValueRow> {};

TEST_P(Value, IsWhatTheRuleSays) {
    const ValueRow& row = GetParam();
    const Result result = calculate(row.text);
    EXPECT_EQ(result.trouble.fault, ExpressionFault::None) << row.text;
    EXPECT_EQ(result.trouble.doubt, row.doubt) << row.text;
    EXPECT_EQ(result.finding, "") << row.text;
    // The last places of the functions of the C library.
    EXPECT_NEAR(result.value, row.value, 1e-12 * std::max(1.0, std::abs(row.value))) << row.text;
}

INSTANTIATE_TEST_SUITE_P(Nistir6556, Value,
                         testing::Values(ValueRow{"[2.0/3*1.5-5.5/11.0]", 0.5},          // TC011
                                         ValueRow{"#1+2", 5}, ValueRow{"#[1+2]", -2.5},  // TC012
                                         ValueRow{"##1", -2.5},                          // TC013: #1 is 3, #3 is -2.5
                                         ValueRow{"[2**3**2]", 64},                      // TC014
                                         ValueRow{"SIN[90]", 1}, ValueRow{"COS[60]", 0.5},  // TC016
                                         ValueRow{"TAN[45]", 1}, ValueRow{"ASIN[1]", 90}, ValueRow{"ACOS[0]", 90},
                                         ValueRow{"ABS[-2.5]", 2.5}, ValueRow{"EXP[0]", 1}, ValueRow{"LN[EXP[2]]", 2},
                                         ValueRow{"SQRT[16]", 4}, ValueRow{"ROUND[2.4]", 2}, ValueRow{"ROUND[2.6]", 3},
                                         ValueRow{"ATAN[1]/[1]", 45},                              // TC017
                                         ValueRow{"FIX[2.8]", 2}, ValueRow{"FUP[2.8]", 3},         // TC018, TC019
                                         ValueRow{"FIX[-2.8]", -3, ExpressionDoubt::RoundsBelow},  // likewise
                                         ValueRow{"FUP[-2.8]", -2, ExpressionDoubt::RoundsBelow}));

INSTANTIATE_TEST_SUITE_P(
    Operators, Value,
    testing::Values(ValueRow{"2+3*4", 14}, ValueRow{"[2+3]*4", 20}, ValueRow{"10-4-3", 3}, ValueRow{"100/10/5", 2},
                    ValueRow{"2*3**2", 18}, ValueRow{"10 MOD 4", 2}, ValueRow{"10mod4*2", 4},
                    ValueRow{"-5 MOD 3", -2, ExpressionDoubt::Remainder}, ValueRow{"-#1", -3}, ValueRow{"--#1", 3},
                    ValueRow{"-[#1+1]", -4}, ValueRow{"+#1-+2", 1}, ValueRow{"2*-3", -6}, ValueRow{"#[#1-2]", 3},
                    ValueRow{"#[#[2-1]]", -2.5}, ValueRow{"6 AND 3", 2, ExpressionDoubt::Logic},
                    ValueRow{"6 OR 3", 7, ExpressionDoubt::Logic}, ValueRow{"6 XOR 3", 5, ExpressionDoubt::Logic},
                    ValueRow{"1 AND 1", 1}, ValueRow{"1 XOR 1", 0}, ValueRow{"0 OR 1", 1}, ValueRow{"POW[2,10]", 1024},
                    ValueRow{"1 2 . 5 + . 5", 13}, ValueRow{"[1(one)+(two)2]", 3}, ValueRow{"2;+3", 2}));

INSTANTIATE_TEST_SUITE_P(Comparisons, Value,
                         testing::Values(ValueRow{"1EQ1", 1}, ValueRow{"1NE1", 0}, ValueRow{"2GT1", 1},
                                         ValueRow{"1GT1", 0}, ValueRow{"1GE1", 1}, ValueRow{"1LT2", 1},
                                         ValueRow{"2LE1", 0}, ValueRow{"1+1EQ2", 1}, ValueRow{"[1EQ1]AND[2EQ2]", 1},
                                         ValueRow{"[1EQ1]AND[2EQ3]", 0},
                                         ValueRow{".1+.1+.1 EQ .3", 1, ExpressionDoubt::NearlyEqual},
                                         ValueRow{".1+.1+.1 GT .3", 0, ExpressionDoubt::NearlyEqual}));

INSTANTIATE_TEST_SUITE_P(Angles, Value,
                         testing::Values(ValueRow{"SIN[30]", 0.5}, ValueRow{"SIN[180]", 0}, ValueRow{"COS[90]", 0},
                                         ValueRow{"COS[270]", 0}, ValueRow{"SIN[-90]", -1}, ValueRow{"COS[360]", 1},
                                         ValueRow{"SIN[3600030]", 0.5}, ValueRow{"TAN[180]", 0},
                                         ValueRow{"ATAN[1]", 45}, ValueRow{"ATAN[-1]", -45}, ValueRow{"ATAN[1,1]", 45},
                                         ValueRow{"ATAN[90]/2", std::atan(90.0) * 90 / std::acos(-1.0)},
                                         ValueRow{"ATAN[1]/[-1]", 135, ExpressionDoubt::AngleRange},
                                         ValueRow{"ATAN[-1]/[1]", -45, ExpressionDoubt::AngleRange},
                                         ValueRow{"ATAN[1]/[0]", 90}, ValueRow{"SIN[#10-7]", 0}));

// Null is a value of its own; #99 was never set, #5 is 0 (common practice, no source).
INSTANTIATE_TEST_SUITE_P(Null, Value,
                         testing::Values(ValueRow{"#99+1", 1}, ValueRow{"#99*4", 0}, ValueRow{"#0+0", 0},
                                         ValueRow{"#99EQ#0", 1}, ValueRow{"#99NE#0", 0}, ValueRow{"#5EQ#0", 0},
                                         ValueRow{"#5NE#0", 1}, ValueRow{"#99EQ0", 0}, ValueRow{"#99NE0", 1},
                                         ValueRow{"#99GE0", 1}, ValueRow{"#99GT0", 0}, ValueRow{"#99LE#5", 1},
                                         ValueRow{"SIN[#99]", 0}, ValueRow{"#[#99+1]", 3}));

TEST(Null, StaysNullWhenItIsHandedOn) {
    for (const char* text : {"#0", "#99", "[#99]", "[[#0]]", "-#99", "#[#4+1]", "#[99]"}) {
        const Result result = calculate(text);
        EXPECT_TRUE(isNull(result.value)) << text;
        EXPECT_EQ(result.trouble.fault, ExpressionFault::None) << text;
    }
}

struct FaultRow {
    const char* text;
    ExpressionFault fault;
    std::uint32_t at;  // behind `#100=`
};

class Fault : public testing::TestWithParam<FaultRow> {};

TEST_P(Fault, IsFoundWhereItIs) {
    const FaultRow& row = GetParam();
    const Result result = calculate(row.text);
    EXPECT_EQ(result.trouble.fault, row.fault) << row.text;
    EXPECT_EQ(result.trouble.faultAt, row.at + 5) << row.text;
    EXPECT_TRUE(isNull(result.value)) << row.text;
}

INSTANTIATE_TEST_SUITE_P(
    Calculation, Fault,
    testing::Values(
        FaultRow{"1/0", ExpressionFault::DivisionByZero, 1}, FaultRow{"4+1/[#1-3]", ExpressionFault::DivisionByZero, 3},
        FaultRow{"1/#99", ExpressionFault::DivisionByZero, 1}, FaultRow{"5MOD0", ExpressionFault::DivisionByZero, 1},
        FaultRow{"SQRT[-1]", ExpressionFault::RootBelowZero, 0},
        FaultRow{"1+LN[0]", ExpressionFault::LogNotAboveZero, 2},
        FaultRow{"ASIN[1.5]", ExpressionFault::NoSuchAngle, 0}, FaultRow{"ACOS[-1.5]", ExpressionFault::NoSuchAngle, 0},
        FaultRow{"TAN[90]", ExpressionFault::NoSuchAngle, 0}, FaultRow{"#[#0]", ExpressionFault::NullIndex, 0},
        FaultRow{"##99", ExpressionFault::NullIndex, 0}, FaultRow{"#[1.5]", ExpressionFault::BadIndex, 0},
        FaultRow{"##3", ExpressionFault::BadIndex, 0}, FaultRow{"#[100000]", ExpressionFault::BadIndex, 0},
        FaultRow{"[-2]**.5", ExpressionFault::NoPower, 4}, FaultRow{"0**-1", ExpressionFault::NoPower, 1},
        FaultRow{"10**999", ExpressionFault::TooLarge, 2}, FaultRow{"EXP[9999]", ExpressionFault::TooLarge, 0}));

struct ReadingRow {
    const char* text;
    const char* finding;
};

class Unreadable : public testing::TestWithParam<ReadingRow> {};

TEST_P(Unreadable, IsAFinding) {
    EXPECT_EQ(calculate(GetParam().text).finding, GetParam().finding) << GetParam().text;
}

INSTANTIATE_TEST_SUITE_P(
    Text, Unreadable,
    testing::Values(ReadingRow{"", "expression-faulty"}, ReadingRow{"1+", "expression-faulty"},
                    ReadingRow{"*2", "expression-faulty"}, ReadingRow{"[1+2", "unclosed-bracket"},
                    ReadingRow{"1]", "statement-faulty"}, ReadingRow{"1 X2", "statement-faulty"},
                    ReadingRow{"SIN30", "unknown-function"}, ReadingRow{"SINE[30]", "unknown-function"},
                    ReadingRow{"X", "unknown-function"}, ReadingRow{"BIN[#1]", "function-not-carried-out"},
                    ReadingRow{"1.2.3", "second-decimal-point"}, ReadingRow{"#1.5", "no-such-variable"},
                    ReadingRow{"#123456", "no-such-variable"}, ReadingRow{"#", "expression-faulty"},
                    ReadingRow{"1+2AND3", "operator-order"}, ReadingRow{"#1EQ1AND#2EQ5", "operator-order"},
                    ReadingRow{"[]", "expression-faulty"}, ReadingRow{"POW[2]", "expression-faulty"}));

// However deep people nest by accident or by malice.
TEST(Expression, RefusesMoreBracketsThanItCanHold) {
    for (int depth : {30, 33, 2000}) {
        const std::string text =
            std::string(static_cast<std::size_t>(depth), '[') + "1" + std::string(static_cast<std::size_t>(depth), ']');
        const Result result = calculate(text);
        EXPECT_EQ(result.finding, depth < 32 ? "" : "expression-faulty") << depth;
        EXPECT_TRUE(depth > 32 || result.value == 1) << depth;
    }
    EXPECT_EQ(calculate(std::string(5000, '#') + "1").finding, "expression-faulty");
    EXPECT_EQ(calculate(std::string(5000, '-') + "1").value, 1);
}

// The deepest that a reading can leave open on the way: every level with all its operators.
TEST(Expression, HoldsAllThatIsOpenAtTheDeepestBracket) {
    std::string text;
    for (int i = 0; i < 15; ++i) text += "1EQ1+1*1**ATAN[1]/[";
    text += "1";
    for (int i = 0; i < 15; ++i) text += "]";
    EXPECT_EQ(calculate(text).finding, "");
}

}  // namespace
}  // namespace firstoff
