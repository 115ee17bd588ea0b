// The centre of the tailstock: in the way, without a hole, short of the bar.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

// Bar of 50 with 80 out, face 1 mm proud; T01 faces and turns, T06 drills 8 mm, T07 is a centre drill. M21 brings up a
// centre of 60 degrees, M22 takes it back.
firstoff::Setup bench(double pointZ) {
    auto setup = shop::barStock(50, 80);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addDrill(setup, 6, 8);
    Tailstock& tailstock = setup.tailstock.emplace();
    tailstock.quillRadius = 35;
    tailstock.quillLength = 120;
    tailstock.centreAngle = radians(60);
    tailstock.centreRadius = 14;
    tailstock.centreLength = 60;
    tailstock.tipZ = 600;
    tailstock.advancedZ = 109 + pointZ;  // Z0 stands at 109
    setup.machineCodes = {{21, "centre forward", 2, {}, {}, MachineAction::TailstockAdvance, {}},
                          {22, "centre back", 2, {}, {}, MachineAction::TailstockRetract, {}}};
    return setup;
}

const std::string kBegin = "G21 G40 G99\nT0101\nG97 S500 M03\nG00 X100. Z0\nX54.\n";
const std::string kFace = "G01 X-1.6 F.1\nG00 Z2.\nX150. Z50.\n";
// A hole of 8 mm whose cone of 118 degrees ends 20 mm deep.
const std::string kDrill = "T0606\nG97 S800 M03\nG00 X0 Z5.\nG01 Z-20. F.1\nG00 Z10.\nX150. Z50.\n";
const std::string kTurn = "G28 U0\nT0101\nG00 X100. Z2.\nX48.\nG01 Z-30. F.1\nG00 X150.\n";

TEST(Tailstock, RetractedBeforeTheFaceIsNotSpokenOf) {
    const auto trial = shop::run(kBegin + kFace + kDrill + "M21\n" + kTurn + "M22\n" + kDrill + "M30\n", bench(-8));
    EXPECT_THAT(shop::findings(*trial, "tailstock-not-retracted"), testing::IsEmpty());
}

TEST(Tailstock, LeftAdvancedWhenTheFaceIsTurnedToTheAxis) {
    const auto trial =
        shop::run(kBegin + kFace + kDrill + "M21\n" + kTurn + "T0101\nG00 X54. Z-.5\n" + kFace + "M30\n", bench(-8));
    const auto found = shop::findings(*trial, "tailstock-not-retracted");
    ASSERT_EQ(found.size(), 1u) << shop::found(*trial);
    EXPECT_EQ(found[0].severity, Severity::Stop);
    EXPECT_EQ(found[0].span.line, 24u);
    EXPECT_THAT(found[0].message, HasSubstr("Z-8.000"));
}

TEST(Tailstock, AFaceThatEndsBesideTheCentreIsFine) {
    // At Z-0.5 the centre, its point at Z-8, has a radius of 7.5 tan 30 degrees = 4.33: 8.66 in diameter.
    const std::string upTo = kBegin + kFace + kDrill + "M21\n" + kTurn + "G00 X54. Z-.5\nG01 ";
    EXPECT_THAT(shop::findings(*shop::run(upTo + "X8.7 F.1\nG00 X150.\nM30\n", bench(-8)), "tailstock-not-retracted"),
                testing::IsEmpty());
    EXPECT_EQ(
        shop::findings(*shop::run(upTo + "X8.6 F.1\nG00 X150.\nM30\n", bench(-8)), "tailstock-not-retracted").size(),
        1u);
}

TEST(Tailstock, LeftAdvancedWhenTheAxisIsDrilled) {
    const auto trial = shop::run(kBegin + kFace + kDrill + "M21\n" + kTurn + kDrill + "M30\n", bench(-8));
    const auto found = shop::findings(*trial, "tailstock-not-retracted");
    ASSERT_EQ(found.size(), 1u) << shop::found(*trial);
    EXPECT_EQ(found[0].span.line, 24u);  // at rapid to X0 Z5 already
    EXPECT_THAT(found[0].remedy, HasSubstr("before anything is drilled"));
}

TEST(Tailstock, AdvancedAtTheStartIsInTheWayAsWell) {
    auto setup = bench(-8);
    setup.tailstock->advanced = true;
    setup.tailstock->tipZ = 101;
    const auto trial = shop::run(kBegin + kFace + "M30\n", setup);
    ASSERT_EQ(shop::findings(*trial, "tailstock-not-retracted").size(), 1u);
    EXPECT_EQ(shop::findings(*trial, "tailstock-not-retracted")[0].span.line, 6u);
}

TEST(Tailstock, ACylinderBesideTheShankIsFineAndOneIntoTheQuillIsNot) {
    auto setup = bench(-8);
    setup.tailstock->advanced = true;
    setup.tailstock->tipZ = 101;
    // The quill begins 60 mm behind the point, at Z52.
    const auto run = [&](const std::string& z) {
        return shop::run(
            "G21 G40 G99\nT0101\nG97 S500 M03\nG00 X100. Z" + z + "\nX48.\nG01 Z-20. F.1\nG00 X150.\nM30\n", setup);
    };
    EXPECT_THAT(shop::findings(*run("40."), "tailstock-not-retracted"), testing::IsEmpty());
    EXPECT_EQ(shop::findings(*run("53."), "tailstock-not-retracted").size(), 1u);
}

// --- Where the centre comes to stand --------------------------------------------------------------------------------

// The cone of the centre, 60 degrees, sits on the rim of an 8 mm hole when its point stands 4 / tan 30 = 6.93 mm deep.
TEST(CentreHole, ThatTakesTheCentreIsNotSpokenOf) {
    for (const double point : {-6.93, -6.6, -7.3}) {
        const auto trial = shop::run(kBegin + kFace + kDrill + "M21\n" + kTurn + "M30\n", bench(point));
        for (const char* code : {"centre-does-not-reach", "centre-without-hole", "centre-hole-too-small"}) {
            EXPECT_THAT(shop::findings(*trial, code), testing::IsEmpty()) << code << " " << point;
        }
    }
}

TEST(CentreHole, MissingIsAStopThatIsNotProven) {
    const auto trial = shop::run(kBegin + kFace + "M21\n" + kTurn + "M30\n", bench(-6.9));
    const auto found = shop::findings(*trial, "centre-without-hole");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Stop);
    EXPECT_TRUE(found[0].unproven);
    EXPECT_EQ(found[0].span.line, 9u);
    EXPECT_THAT(found[0].message, HasSubstr("6.900 mm into"));
}

TEST(CentreHole, TooSmallOrTooFarIsAWarningWithTheAmount) {
    const auto deep = shop::run(kBegin + kFace + kDrill + "M21\n" + kTurn + "M30\n", bench(-8.928));
    ASSERT_EQ(shop::findings(*deep, "centre-hole-too-small").size(), 1u);
    // Columns stand 2 µm apart.
    EXPECT_NEAR(shop::findings(*deep, "centre-hole-too-small")[0].values[0].second, 2, 0.004);
    const auto shallow = shop::run(kBegin + kFace + kDrill + "M21\n" + kTurn + "M30\n", bench(-4.928));
    ASSERT_EQ(shop::findings(*shallow, "centre-does-not-reach").size(), 1u);
    EXPECT_NEAR(shop::findings(*shallow, "centre-does-not-reach")[0].values[0].second, 2, 0.004);
    const auto before = shop::run(kBegin + kFace + "M21\n" + kTurn + "M30\n", bench(3));
    ASSERT_EQ(shop::findings(*before, "centre-does-not-reach").size(), 1u);
    EXPECT_THAT(shop::findings(*before, "centre-does-not-reach")[0].message, HasSubstr("3.000 mm short"));
}

}  // namespace
}  // namespace firstoff
