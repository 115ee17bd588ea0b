#include "sim/program/decimal.h"

#include <gtest/gtest.h>

#include <rapidcheck.h>
#include <cstdlib>
#include <ostream>
#include <string>

namespace firstoff {
namespace {

Decimal read(const std::string& text) {
    return readDecimal(text.data(), text.data() + text.size());
}

struct NumberRow {
    const char* text;
    double value;
    std::size_t used;  // characters that belong to the number
    bool hasPoint;
};
void PrintTo(const NumberRow& row, std::ostream* os) {
    *os << row.text;
}

class Number : public testing::TestWithParam<NumberRow> {};

TEST_P(Number, IsReadExactly) {
    const std::string text = GetParam().text;
    const Decimal decimal = read(text);
    EXPECT_EQ(decimal.kind, Decimal::Fault::None);
    EXPECT_EQ(decimal.value, GetParam().value);
    EXPECT_EQ(static_cast<std::size_t>(decimal.end - text.data()), GetParam().used);
    EXPECT_EQ(decimal.hasPoint, GetParam().hasPoint);
}

// Forms of NISTIR 6556 sec. 3.3 and 3.3.2.1 (rows TC002 and TC005).
INSTANTIATE_TEST_SUITE_P(Forms, Number,
                         testing::Values(NumberRow{".5", 0.5, 2, true}, NumberRow{"5.", 5, 2, true},
                                         NumberRow{"+005.50", 5.5, 7, true}, NumberRow{"-.5", -0.5, 3, true},
                                         NumberRow{"+0. 12 34y7", 0.1234, 9, true}, NumberRow{" 20.", 20, 4, true},
                                         NumberRow{"- 3", -3, 3, false}, NumberRow{"0", 0, 1, false},
                                         NumberRow{"1 ", 1, 1, false}, NumberRow{"20.Z", 20, 3, true},
                                         NumberRow{"\t7\t5", 75, 4, false}, NumberRow{"-0", 0, 2, false},
                                         NumberRow{"123456789012345678", 123456789012345678.0, 18, false},
                                         NumberRow{"0.00000000000000001", 1e-17, 19, true}));

TEST(Number, NeedsADigit) {
    for (const char* text : {"", "-", ".", "-.", "+ .", "Z5"}) {
        EXPECT_EQ(read(text).kind, Decimal::Fault::NoDigits) << text;
    }
}

TEST(Number, WithTwoPointsIsReadUpToTheSecond) {
    const std::string text = "1.25.5 7Z";
    const Decimal decimal = read(text);
    EXPECT_EQ(decimal.kind, Decimal::Fault::SecondPoint);
    EXPECT_EQ(decimal.value, 1.25);
    EXPECT_EQ(decimal.fault - text.data(), 4);
    EXPECT_EQ(decimal.end - text.data(), 8) << "reading resumes behind the whole of it";
}

TEST(Number, OfHundredsOfDigitsStaysFinite) {
    EXPECT_GT(read(std::string(400, '9')).value, 1e300);
    EXPECT_EQ(read("0." + std::string(400, '0') + "1").value, 0);
}

// The C library's reader is correctly rounded, so the two must agree to the last bit.
TEST(Number, AgreesWithTheLibraryToTheLastBit) {
    EXPECT_TRUE(rc::check("same double as strtod", [] {
        const auto whole = *rc::gen::inRange<std::int64_t>(0, 100'000'000);
        const auto behind = *rc::gen::container<std::string>(rc::gen::inRange('0', static_cast<char>('9' + 1)));
        const std::string text = std::to_string(whole) + "." + behind.substr(0, 12);
        RC_ASSERT(read(text).value == std::strtod(text.c_str(), nullptr));
    }));
}

}  // namespace
}  // namespace firstoff
