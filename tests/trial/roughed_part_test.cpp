// Parts cut with the roughing cycles: nothing but the edge touches, and the sizes come out.
#include <gtest/gtest.h>

#include <string>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

firstoff::Setup bench() {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);      // 80° at 95°: 5° behind the nose
    shop::addTurningTool(setup, 2, 'V', 0.4, 93);  // 35° at 93°: 52°
    shop::addBoringBar(setup, 3, 'C', 0.4);
    shop::addDrill(setup, 9, 24);
    return setup;
}

std::shared_ptr<const Trial> cut(const std::string& body) {
    return shop::run("G21 G40 G99\nG97 S900 M03\n" + body + "G28 U0 W0\nM30\n", bench());
}

// Cylinders come out exactly; columns are 2 µm apart, which matters on slopes only, and those are not gauged.
constexpr double kGauged = 1e-3;

const std::string kWaist = "N10 G00 X40. Z2.\nG01 Z-8.\nX30. Z-15.\nZ-22.\nX40. Z-29.\nZ-35.\nN20 X52.\n";

TEST(RoughedPart, WithAWaistIsLeftWithItsAllowance) {
    const auto trial = cut("T0202\nG00 X52. Z2.\nG71 U1.5 R.5\nG71 P10 Q20 U.6 W0 F.2\n" + kWaist);
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
    EXPECT_NEAR(shop::diameterAt(*trial, -4), 40.6, kGauged);
    EXPECT_NEAR(shop::diameterAt(*trial, -18), 30.6, kGauged);
    EXPECT_NEAR(shop::diameterAt(*trial, -32), 40.6, kGauged);
}

TEST(RoughedPart, WithAWaistIsFinishedToSize) {
    const auto trial =
        cut("T0202\nG00 X52. Z2.\nG71 U1.5 R.5\nG71 P10 Q20 U.6 W0 F.2\n" + kWaist + "G70 P10 Q20 F.1\n");
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
    EXPECT_NEAR(shop::diameterAt(*trial, -4), 40, kGauged);
    EXPECT_NEAR(shop::diameterAt(*trial, -18), 30, kGauged);
    EXPECT_NEAR(shop::diameterAt(*trial, -32), 40, kGauged);
}

// An insert with 5° behind its nose cannot go down a wall of 36°: the passes are the same, and it is said.
TEST(RoughedPart, WithAWaistIsNotForEveryInsert) {
    const auto trial = cut("T0101\nG00 X52. Z2.\nG71 U1.5 R.5\nG71 P10 Q20 U.6 W0 F.2\n" + kWaist);
    EXPECT_FALSE(shop::findings(*trial, "insert-cuts-behind-nose").empty()) << shop::found(*trial);
}

TEST(RoughedPart, WithTwoWaistsIsCutWithoutARapidThroughIt) {
    const auto trial =
        cut("T0202\nG00 X52. Z2.\nG71 U1. R.5\nG71 P10 Q20 U.4 W0 F.2\n"
            "N10 G00 X46. W0\nG01 Z-3.\nX38. Z-8.\nZ-12.\nX44. Z-16.\nZ-18.\nX36. Z-23.\nZ-27.\nN20 X52. Z-36.\n"
            "G70 P10 Q20 F.1\n");
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
    EXPECT_NEAR(shop::diameterAt(*trial, -10), 38, kGauged);
    EXPECT_NEAR(shop::diameterAt(*trial, -17), 44, kGauged);
    EXPECT_NEAR(shop::diameterAt(*trial, -25), 36, kGauged);
}

TEST(RoughedPart, FacedInStepsIsFinishedToSize) {
    const auto trial =
        cut("T0101\nG00 X52. Z2.\nG72 W1.5 R.5\nG72 P10 Q20 U.4 W.1 F.2\n"
            "N10 G00 Z-12.\nG01 X40.\nZ-5.\nX20.\nN20 Z1.\nG70 P10 Q20 F.1\n");
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
    EXPECT_NEAR(shop::diameterAt(*trial, -9), 40, kGauged);
    EXPECT_NEAR(shop::diameterAt(*trial, -2), 20, kGauged);
}

TEST(RoughedPart, CutAsAPatternIsFinishedToSize) {
    const auto trial =
        cut("T0101\nG00 X54. Z3.\nG73 U4. W0 R4\nG73 P10 Q20 U.4 W.1 F.2\n"
            "N10 G00 X40. Z2.\nG01 Z-12.\nX44. Z-20.\nN20 X52.\nG70 P10 Q20 F.1\n");
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
    EXPECT_NEAR(shop::diameterAt(*trial, -8), 40, kGauged);
}

}  // namespace
}  // namespace firstoff
