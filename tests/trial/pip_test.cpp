#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

std::string facing(const std::string& lastX) {
    return "G21 G40 G99\nT0101\nG50 S2500\nG96 S180 M03\nG00 X54. Z0.\nG01 X" + lastX +
           " F.2\nG00 Z2.\nX120. Z60.\nM30\n";
}

firstoff::Setup bench(double noseRadius, double centreHeight = 0) {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', noseRadius).centreHeight = centreHeight;
    shop::addDrill(setup, 9, 20);
    return setup;
}

// Elementary geometry: with the imaginary tip stopped at X0 the flat of the face begins at the nose centre's radius R,
// so the foot of the pip is 2R across, and it is as long as the bar stood proud.
TEST(Pip, TipStoppedAtTheCentreLeavesAFootOfTwiceTheNoseRadius) {
    for (double radius : {0.2, 0.4, 0.8}) {
        const auto trial = shop::run(facing("0"), bench(radius));
        const auto pips = shop::findings(*trial, "pip-left");
        ASSERT_EQ(pips.size(), 1u) << radius;
        EXPECT_EQ(pips[0].span.line, 6u);
        // 0.01 mm in front of the face the foot's outline has the second derivative R² / (2Re)^1.5; columns 2 µm apart
        // are joined by straight lines that lie off it by an eighth of that times the pitch squared.
        const double sag = radius * radius / std::pow(2 * radius * 0.01, 1.5) * 0.002 * 0.002 / 8;
        EXPECT_NEAR(pips[0].values[0].second, 2 * radius, 2 * 1.2 * sag) << radius;
        EXPECT_EQ(pips[0].severity, Severity::Warning);
    }
}

TEST(Pip, FacingPastTheCentreByTheNoseRadiusLeavesNone) {
    const auto trial = shop::run(facing("-1.6"), bench(0.8));
    EXPECT_EQ(shop::found(*trial), "");
    EXPECT_EQ(trial->verdict, Verdict::Clear);
}

TEST(Pip, FacingOutwardsFromTheCentreLeavesOneToo) {
    const auto trial = shop::run(
        "G21 G40 G99\nT0101\nG50 S2500\nG96 S180 M03\nG00 X0 Z3.\nG01 Z0 F.1\nX54.\nG00 X120. Z60.\nM30\n", bench(0.8));
    const auto pips = shop::findings(*trial, "pip-left");
    ASSERT_EQ(pips.size(), 1u) << shop::found(*trial);
    EXPECT_EQ(pips[0].span.line, 7u);
    EXPECT_NEAR(pips[0].values[0].second, 1.6, 0.001);
}

TEST(Pip, ASmallPinThatIsTurnedIsNone) {
    auto setup = shop::barStock(14, 40);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const auto trial = shop::run(
        "G21 G40 G99\nT0101\nG50 S2500\nG96 S180 M03\nG00 X54. Z0\nG01 X-1.6 F.2\nG00 Z2.\nX3.\nG01 Z-5. F.1\nX54.\n"
        "G00 X120. Z60.\nM30\n",
        setup);
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
}

// Common practice, no source: an edge off centre height leaves a pip whatever X it is fed to; its radius is the height.
// The face as the first element of a profile, which is cut outwards and under compensation.
TEST(Pip, ProfileThatSetsOutFromTheCentre) {
    const std::string start = "G21 G40 G99\nT0101\nG50 S2500\nG96 S180 M03\n";
    const std::string end = "X54.\nG00 G40 X120. Z60.\nM30\n";
    struct Row {
        const char* approach;  // line 5 on; the face is cut in line 7
        const char* expected;
    };
    const Row rows[] = {{"G00 X0 Z3.\nG01 Z0 F.1\n", "pip-left@7"},
                        {"G00 G42 X0 Z3.\nG01 Z0 F.1\n", "pip-left@7"},
                        {"G00 X-1.6 Z3.\nG01 Z0 F.1\n", ""},
                        {"G00 G42 X-1.6 Z3.\nG01 Z0 F.1\n", ""},
                        // A pin of 4 mm, turned and then faced round.
                        {"G00 X4. Z3.\nG01 Z0 F.1\n", ""}};
    for (const Row& row : rows) {
        const auto trial = shop::run(start + row.approach + end, bench(0.8));
        EXPECT_EQ(shop::found(*trial), row.expected) << row.approach;
    }
}

TEST(Pip, EdgeBelowCentreLeavesAPipOfTwiceTheError) {
    const auto trial = shop::run(facing("-1.6"), bench(0.8, -0.3));
    const auto pips = shop::findings(*trial, "pip-left");
    ASSERT_EQ(pips.size(), 1u);
    // The flare of the nose is added as for a tip on centre, so the figure is on the wide side by at most that.
    EXPECT_GE(pips[0].values[0].second, 0.6 - 1e-9);
    EXPECT_LE(pips[0].values[0].second, 0.6 + 2 * std::sqrt(0.01 * 1.6));
}

TEST(Pip, OneThatADrillTakesOffIsOnlyANote) {
    std::string program = facing("0");
    program.insert(program.find("M30"), "T0909\nG97 S800 M03\nG00 X0 Z5.\nG01 Z-20. F.15\nG00 Z60.\n");
    const auto trial = shop::run(program, bench(0.8));
    const auto pips = shop::findings(*trial, "pip-left");
    ASSERT_EQ(pips.size(), 1u);
    EXPECT_EQ(pips[0].severity, Severity::Note);
}

}  // namespace
}  // namespace firstoff
