// The piece that the second spindle takes away once it is parted off.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "sim/clearance/convex_piece.h"
#include "sim/clearance/nearness.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

// Bar of 40, 60 out, its front at Z1. T04 parts, 3 mm wide and gauged at its side towards the chuck; T01 turns. The
// second spindle has 25 mm of jaws, of small diameter, and takes the piece `back` mm away.
firstoff::Setup bench(double back) {
    auto setup = shop::barStock(40, 60);
    setup.stock.backZ = -100;
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addPartingTool(setup, 4, 3, 0.2);
    SecondSpindle& second = setup.secondSpindle.emplace();
    second.chuck.bodyRadius = 40;
    second.chuck.bodyLength = 80;
    second.chuck.jawLength = 25;
    second.chuck.gripLength = 20;
    second.chuck.jawOuterRadius = 30;
    second.chuck.maxRevPerMin = 4000;
    second.startZ = 400;
    second.approachZ = 95;  // jaws over Z-19 to Z6
    second.parkedZ = 95 + back;
    const auto code = [](int number, MachineAction action) { return MachineCode{number, "", 1, {}, {}, action, {}}; };
    setup.machineCodes = {code(31, MachineAction::SecondSpindleApproach), code(32, MachineAction::SecondSpindleRetract),
                          code(33, MachineAction::SecondSpindleGrip), code(34, MachineAction::SecondSpindleRelease),
                          code(35, MachineAction::SecondSpindleTurnsAlike)};
    return setup;
}

// Up to line 10: the piece, from Z-37 to Z1, is in the second spindle.
const std::string kPart =
    "G21 G40 G99\nT0404\nG97 S800 M03\nM35\nM31\nM33\nG00 X44. Z-40.\nG01 X-1. F.05\nG00 X44.\nX150.\n";

std::vector<std::string> said(const std::string& after, double back) {
    std::vector<std::string> list;
    const auto trial = shop::run(kPart + after + "M30\n", bench(back));
    for (const Finding& f : trial->findings) {
        if (f.code == "body-into-carried-piece" || f.code == "near-carried-piece") {
            list.push_back(f.code + "@" + std::to_string(f.span.line));
        }
    }
    return list;
}

TEST(CarriedPiece, TakenAwayFromTheToolThatPartedItOffIsNotSpokenOf) {
    EXPECT_THAT(said("M05\nM32\n", 200), testing::IsEmpty());
}

// As it was one with the bar the same move was one into the bar; now the bar is not there any more.
TEST(CarriedPiece, IsMetWhereItWasPartedOff) {
    EXPECT_THAT(said("T0101\nG00 X100. Z-30.\nX30.\nX100.\n", 200), ElementsAre("body-into-carried-piece@13"));
    const auto trial = shop::run(kPart + "T0101\nG00 X100. Z-30.\nX30.\nX100.\nM30\n", bench(200));
    const auto found = shop::findings(*trial, "body-into-carried-piece");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Stop);
    // In the piece, 38 mm long with its front at Z1, which is 90 in the lathe frame.
    EXPECT_LE(found[0].place->r, 20.01);
    EXPECT_GE(found[0].place->z, 90 - 38 - 0.1);
    EXPECT_LE(found[0].place->z, 90.1);
    EXPECT_EQ(trial->verdict, Verdict::Problems);
}

TEST(CarriedPiece, IsNotThereAnyMoreOnceItIsTakenAwayOrReleased) {
    EXPECT_THAT(said("M05\nM32\nT0101\nG00 X100. Z-30.\nX30.\nX100.\n", 200), testing::IsEmpty());
    EXPECT_THAT(said("M05\nM34\nT0101\nG00 X100. Z-30.\nX30.\nX100.\n", 200), testing::IsEmpty());
}

// Carried by 60 mm, from Z23 to Z61.
TEST(CarriedPiece, IsWhereTheSecondSpindleStands) {
    EXPECT_THAT(said("M05\nM32\nT0101\nG00 X100. Z25.\nX30.\nX100.\n", 60), ElementsAre("body-into-carried-piece@15"));
    EXPECT_THAT(said("M05\nM32\nT0101\nG00 X100. Z-5.\nX30.\nX100.\n", 60), testing::IsEmpty());
}

TEST(CarriedPiece, SentIntoAToolThatStandsInItsWay) {
    // The tool stands beside the piece, in front of the jaws, 1 mm off it; then just in front of its way.
    const auto near = said("T0101\nG00 X100. Z-30.\nX42.\nM05\nM32\n", 60);
    EXPECT_THAT(near, testing::Contains("near-carried-piece@13"));
}

TEST(CarriedPiece, ComesNoNearerThanTheLimitWithoutAWarning) {
    EXPECT_THAT(said("T0101\nG00 X100. Z-30.\nX44.2\nX100.\n", 200), testing::IsEmpty());
    EXPECT_THAT(said("T0101\nG00 X100. Z-30.\nX43.8\nX100.\n", 200), ElementsAre("near-carried-piece@13"));
    const auto trial = shop::run(kPart + "T0101\nG00 X100. Z-30.\nX42.\nX100.\nM30\n", bench(200));
    const auto found = shop::findings(*trial, "near-carried-piece");
    ASSERT_EQ(found.size(), 1u);
    // 1 mm off. Cylinders are exact where the piece is one; round edges are chords up to kOutsideMm outside, and
    // nearness is within kNearnessMm.
    EXPECT_LE(found[0].values[0].second, 1);
    EXPECT_GE(found[0].values[0].second, 1 - kOutsideMm - 2 * kNearnessMm);
}

}  // namespace
}  // namespace firstoff
