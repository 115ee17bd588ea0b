// Figures gauged from a trial against what a turner reckons by hand.
#include "sim/training/quantity.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>
#include <set>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

const Trial& trial() {
    static const auto made = [] {
        firstoff::Setup setup = shop::barStock(60, 80);  // datum 1 mm behind the front
        shop::addTurningTool(setup, 1, 'C', 0.8);
        shop::addThreadingTool(setup, 3);
        return shop::run(
            "G21 G40 G97 G99\n"                       // 1
            "G28 U0 W0\n"                             // 2
            "T0101\n"                                 // 3
            "G50 S1500\n"                             // 4
            "G96 S200 M03\n"                          // 5
            "N50 G00 X64. Z0 M08\n"                   // 6
            "N60 G01 X-1.6 F0.2\n"                    // 7
            "G00 X60. Z2.\n"                          // 8
            "N80 G71 U2. R.5\n"                       // 9
            "N90 G71 P100 Q120 U.4 W.1 F.3\n"         // 10
            "N100 G00 X50.\n"                         // 11
            "G01 Z-30. F.1\n"                         // 12
            "N120 X60.\n"                             // 13
            "N130 G00 X50. Z2.\n"                     // 14
            "N140 G01 Z-30. F.1\n"                    // 15
            "X62.\n"                                  // 16
            "G28 U0 W0\n"                             // 17
            "T0303\n"                                 // 18
            "G97 S600 M03\n"                          // 19
            "G00 X54. Z6.\n"                          // 20
            "G76 P020060 Q60 R0.03\n"                 // 21
            "N210 G76 X48.16 Z-20. P920 Q300 F1.5\n"  // 22
            "G28 U0 W0\n"                             // 23
            "M30\n",
            setup);
    }();
    return *made;
}

struct Row {
    const char* name;
    const char* line;
    int pass;
    double zMm;
    double value, within;  // reckoned by hand; why so near is said in the row
};

class Gauged : public testing::TestWithParam<Row> {};

TEST_P(Gauged, IsWhatATurnerReckons) {
    const Row& row = GetParam();
    Quantity quantity;
    quantity.kind = quantityNamed(row.name)->kind;
    if (*row.line) quantity.line = linePlaceOf(row.line);
    quantity.pass = row.pass;
    quantity.zMm = row.zMm;
    const QuantityValue gauged = gauge(trial(), quantity);
    ASSERT_TRUE(gauged.value) << row.name << ": " << gauged.trouble;
    EXPECT_NEAR(*gauged.value, row.value, row.within) << row.name;
}

constexpr double kPiHere = std::numbers::pi;
constexpr double kExact = 1e-6;  // figures of the program and formulas of it

INSTANTIATE_TEST_SUITE_P(
    Rows, Gauged,
    testing::Values(Row{"rev_per_min", "N50", 0, 0, 1000 * 200 / (kPiHere * 64), kExact},
                    Row{"rev_per_min", "N60", 0, 0, 1500, kExact},  // clamped
                    Row{"clamp_x_mm", "N60", 0, 0, 1000 * 200 / (kPiHere * 1500), kExact},
                    Row{"surface_speed_m_per_min", "N50", 0, 0, 200, kExact},
                    Row{"surface_speed_m_per_min", "N60", 0, 0, kPiHere * 1.6 * 1500 / 1000, kExact},
                    Row{"feed_mm_per_min", "N60", 0, 0, 0.2 * 1500, kExact},
                    Row{"feed_mm_per_min", "N210", 0, 0, 1.5 * 600, kExact}, Row{"end_x_mm", "N60", 0, 0, -1.6, kExact},
                    Row{"end_x_mm", "7", 0, 0, -1.6, kExact}, Row{"end_z_mm", "N140", 0, 0, -30, kExact},
                    // From 60 in steps of 4 in diameter: 56, 52; 48 would go below the 50.4 that must stay, so that
                    // the pass along the profile takes the rest.
                    Row{"passes", "N90", 0, 0, 3, 0}, Row{"pass_x_mm", "N90", 1, 0, 56, kExact},
                    Row{"pass_x_mm", "N90", 2, 0, 52, kExact}, Row{"pass_depth_mm", "N90", 2, 0, 2, 1e-5},
                    Row{"pass_depth_mm", "N90", 0, 0, 2, 1e-5},  // the last along the axis
                    Row{"pass_depth_mm", "N90", 3, 0, 0.8, 1e-5}, Row{"cut_depth_mm", "N140", 0, 0, 0.2, 1e-5},
                    Row{"finished_diameter_mm", "", 0, -25, 50, 1e-5},
                    Row{"finished_diameter_mm", "", 0, -40, 60, 1e-5},
                    // f²/(8 r) is 1.5625 µm; the circle's is a little more.
                    Row{"theoretical_rz_um", "N140", 0, 0, 1.5625, 0.005},
                    // First pass 0.3 deep.
                    Row{"pass_depth_mm", "N210", 1, 0, 0.3, kExact}));

TEST(Quantity, TimeOfALineIsItsLengthByItsFeed) {
    Quantity quantity;
    quantity.kind = QuantityKind::LineTime;
    quantity.line = linePlaceOf("N140");
    // 32 mm at 0.1 mm/rev and 200 m/min on 50 mm; gaining and losing speed takes hundredths of a second.
    const double rev = 1000 * 200 / (kPiHere * 50);
    EXPECT_NEAR(*gauge(trial(), quantity).value, 32 / (0.1 * rev) * 60, 0.05);
    quantity.kind = QuantityKind::CycleTime;
    EXPECT_EQ(*gauge(trial(), quantity).value, trial().timeline.cycleTimeS);
}

struct Trouble {
    const char* name;
    const char* line;
    int pass;
    const char* told;
};

class NotGauged : public testing::TestWithParam<Trouble> {};

TEST_P(NotGauged, SaysWhy) {
    const Trouble& row = GetParam();
    Quantity quantity;
    quantity.kind = quantityNamed(row.name)->kind;
    if (*row.line) quantity.line = linePlaceOf(row.line);
    quantity.pass = row.pass;
    quantity.zMm = 500;
    quantity.finding = "no-such-finding";
    const QuantityValue gauged = gauge(trial(), quantity);
    EXPECT_FALSE(gauged.value);
    EXPECT_THAT(gauged.trouble, HasSubstr(row.told));
}

INSTANTIATE_TEST_SUITE_P(Rows, NotGauged,
                         testing::Values(Trouble{"rev_per_min", "N999", 0, "no N999"},
                                         Trouble{"rev_per_min", "", 0, "No line"},
                                         Trouble{"end_x_mm", "4", 0, "Nothing moves"},
                                         Trouble{"clamp_x_mm", "N140", 0, "never comes to a clamp"},
                                         Trouble{"passes", "N60", 0, "calls no cycle"},
                                         Trouble{"pass_x_mm", "N90", 5, "has 3 passes"},
                                         Trouble{"theoretical_rz_um", "N210", 0, "no feed per revolution"},
                                         Trouble{"feed_mm_per_min", "N50", 0, "cuts nothing at feed"},
                                         Trouble{"finished_diameter_mm", "", 0, "no such surface"},
                                         Trouble{"finding_line", "", 0, "no-such-finding"}));

TEST(Quantity, CountsFindings) {
    firstoff::Setup setup = shop::stepSetup();
    const auto made = shop::run("T0101\nG97 S800 M03\nG00 X45. Z2.\nX36.\nZ-20.\nX45.\nM30\n", setup);
    Quantity quantity;
    quantity.finding = "rapid-into-material";
    quantity.kind = QuantityKind::FindingLine;
    EXPECT_EQ(*gauge(*made, quantity).value, 5);
    quantity.kind = QuantityKind::FindingCount;
    EXPECT_EQ(*gauge(*made, quantity).value, static_cast<double>(shop::findings(*made, "rapid-into-material").size()));
}

TEST(Quantity, NamesStandOnce) {
    std::set<std::string_view> names;
    for (const QuantityName& quantity : quantities()) {
        EXPECT_TRUE(names.insert(quantity.name).second) << quantity.name;
        EXPECT_EQ(quantityNamed(quantity.name), &quantity);
        EXPECT_EQ(&nameOf(quantity.kind), &quantity);
    }
    EXPECT_EQ(quantityNamed("no"), nullptr);
}

TEST(LinePlace, IsAnNWordOrALine) {
    EXPECT_EQ(linePlaceOf("N120"), (LinePlace{120, true}));
    EXPECT_EQ(linePlaceOf("12"), (LinePlace{12, false}));
    for (const char* wrong : {"", "N", "0", "-1", "1.5", "X3", "N12 ", "123456789"})
        EXPECT_FALSE(linePlaceOf(wrong)) << wrong;
}

}  // namespace
}  // namespace firstoff
