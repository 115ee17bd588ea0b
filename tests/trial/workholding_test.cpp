// Chuck and second spindle, opened, closed and sent by M codes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

// Bar of 40, 60 out, its front at Z1; T01 turns, T04 parts, 3 mm wide and gauged at its side towards the chuck. The
// second spindle grips up to 20 mm from the front: its jaws, 25 long and bored 20 deep, end at Z-19 when it is sent.
firstoff::Setup bench(double backZ = -100) {
    auto setup = shop::barStock(40, 60);
    setup.stock.backZ = backZ;
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addPartingTool(setup, 4, 3, 0.2);
    SecondSpindle& second = setup.secondSpindle.emplace();
    second.chuck = setup.chuck;
    second.chuck.jawLength = 25;
    second.chuck.gripLength = 20;
    second.chuck.jawOuterRadius = 60;
    second.startZ = 400;
    second.parkedZ = 400;
    second.approachZ = 95;  // jaws from 70; the front of the bar at 90, Z0 at 89
    const auto code = [](int number, MachineAction action) { return MachineCode{number, "", 1, {}, {}, action, {}}; };
    setup.machineCodes = {code(31, MachineAction::SecondSpindleApproach),
                          code(32, MachineAction::SecondSpindleRetract),
                          code(33, MachineAction::SecondSpindleGrip),
                          code(34, MachineAction::SecondSpindleRelease),
                          code(35, MachineAction::SecondSpindleTurnsAlike),
                          code(36, MachineAction::SecondSpindleStop),
                          code(68, MachineAction::ChuckOpen),
                          code(69, MachineAction::ChuckClose)};
    return setup;
}

const std::string kBegin = "G21 G40 G99\nT0404\nG97 S800 M03\n";
const std::string kPart = "G00 X44. Z-40.\nG01 X-1. F.05\nG00 X44.\nX150.\n";  // lines 4 to 7 behind kBegin

// What is said about the workholding, with its line.
std::vector<std::string> said(const std::string& program, const firstoff::Setup& setup = bench()) {
    std::vector<std::string> list;
    const auto trial = shop::run(program, setup);
    for (const Finding& f : trial->findings) {
        for (const char* code :
             {"bar-let-go", "bar-pulled", "piece-let-go", "chuck-open-while-turning", "cut-with-chuck-open",
              "second-spindle-grips-nothing", "second-spindle-grips-short", "second-jaws-too-small",
              "second-spindle-not-in-step", "second-spindle-pulls-held-bar", "parted-into-open-jaws",
              "body-into-carried-piece", "near-carried-piece", "speed-above-second-chuck-limit"}) {
            if (f.code == code) list.push_back(f.code + "@" + std::to_string(f.span.line));
        }
    }
    return list;
}

TEST(HandOver, DoneRightIsNotSpokenOf) {
    // Standing: the spindle stops, is gripped, both start in step.
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM35\nM03\n" + kPart + "M05\nM36\nM32\nM34\nM30\n"), testing::IsEmpty());
    // Turning: in step first.
    EXPECT_THAT(said(kBegin + "M35\nM31\nM33\n" + kPart + "M05\nM32\nM30\n"), testing::IsEmpty());
}

TEST(HandOver, LeftAtTheWorkIsAWarningAtTheEnd) {
    const auto left = shop::run(kBegin + "M35\nM31\nM33\n" + kPart + "M05\nM30\n", bench());
    const auto found = shop::findings(*left, "second-spindle-left-at-work");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Warning);
    EXPECT_EQ(found[0].span.line, 12u);
    const auto back = shop::run(kBegin + "M35\nM31\nM33\n" + kPart + "M05\nM32\nM30\n", bench());
    EXPECT_TRUE(shop::findings(*back, "second-spindle-left-at-work").empty());
}

TEST(HandOver, OutOfStepIsAStop) {
    EXPECT_THAT(said(kBegin + "M31\nM33\nM35\n" + kPart + "M05\nM32\nM30\n"),
                ElementsAre("second-spindle-not-in-step@5"));
    EXPECT_THAT(said(kBegin + "M35\nM31\nM33\nM36\n" + kPart + "M05\nM32\nM30\n"),
                ElementsAre("second-spindle-not-in-step@7"));
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM03\n" + kPart + "M05\nM32\nM30\n"),
                ElementsAre("second-spindle-not-in-step@8"));
}

TEST(HandOver, AtNothingIsAStopWithTheFigures) {
    EXPECT_THAT(said(kBegin + "M05\nM33\nM30\n"), ElementsAre("second-spindle-grips-nothing@5"));
    auto away = bench();
    away.secondSpindle->approachZ = 120;  // jaws from 95
    const auto trial = shop::run(kBegin + "M05\nM31\nM33\nM30\n", away);
    const auto found = shop::findings(*trial, "second-spindle-grips-nothing");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Stop);
    EXPECT_THAT(found[0].message, HasSubstr("between Z6.000 and Z26.000"));
    EXPECT_THAT(found[0].message, HasSubstr("ends at Z1.000"));
}

TEST(HandOver, OfTooLittleIsAWarning) {
    auto shortOf = bench();
    shortOf.secondSpindle->approachZ = 107;  // jaws from 82: 8 mm of the bar
    const auto trial = shop::run(kBegin + "M05\nM31\nM33\nM30\n", shortOf);
    const auto found = shop::findings(*trial, "second-spindle-grips-short");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_THAT(found[0].message, HasSubstr("only 8.00 mm of a diameter of 40.000 mm"));
    EXPECT_THAT(found[0].message, HasSubstr("made for 20.00 mm"));
    // Jaws that are not bored to a depth: half the diameter will do.
    shortOf.secondSpindle->chuck.gripLength = 0;
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM30\n", shortOf), ElementsAre("second-spindle-grips-short@6"));
    shortOf.secondSpindle->approachZ = 95;
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM30\n", shortOf), testing::IsEmpty());
}

// Turned to 36 from Z-8 on: the jaws bear on the 9 mm in front of it only.
TEST(HandOver, OfAStepGripsItsThickPartOnly) {
    const auto trial = shop::run(
        "G21 G40 G99\nT0404\nG97 S800 M03\nG00 X44. Z-19.\nG01 X36. F.05\nZ-11.\nG00 X150.\nM05\nM31\nM33\nM30\n",
        bench());
    const auto found = shop::findings(*trial, "second-spindle-grips-short");
    ASSERT_EQ(found.size(), 1u) << shop::found(*trial);
    EXPECT_EQ(found[0].span.line, 10u);
    EXPECT_THAT(found[0].message, HasSubstr("only 9.00 mm"));
}

TEST(HandOver, OfAThickPartIntoSmallJaws) {
    auto small = bench();
    small.secondSpindle->chuck.jawOuterRadius = 19;
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM30\n", small), ElementsAre("second-jaws-too-small@6"));
}

TEST(HandOver, SentAwayWhileBothHoldIsAStop) {
    const auto trial = shop::run(kBegin + "M05\nM31\nM33\nM32\nM30\n", bench());
    const auto found = shop::findings(*trial, "second-spindle-pulls-held-bar");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Stop);
    EXPECT_EQ(found[0].span.line, 7u);
    EXPECT_THAT(found[0].message, HasSubstr("305.000 mm"));
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM34\nM32\nM30\n"), testing::IsEmpty());
}

TEST(HandOver, ABarPulledThroughTheOpenChuckIsNotModelled) {
    const auto trial = shop::run(kBegin + "M05\nM31\nM33\nM68\nM32\nM69\nM30\n", bench());
    const auto found = shop::findings(*trial, "bar-pulled");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_TRUE(found[0].unproven);
    EXPECT_EQ(trial->verdict, Verdict::NotProven) << shop::found(*trial);
}

TEST(HandOver, PartedOffInOpenJaws) {
    EXPECT_THAT(said(kBegin + "M31\n" + kPart + "M05\nM32\nM30\n"), ElementsAre("parted-into-open-jaws@6"));
    // Where the second spindle is away the piece may fall.
    EXPECT_THAT(said(kBegin + kPart + "M05\nM30\n"), testing::IsEmpty());
}

TEST(HandOver, ReleasedWhileItTurns) {
    EXPECT_THAT(said(kBegin + "M35\nM31\nM33\n" + kPart + "M34\nM30\n"), ElementsAre("chuck-open-while-turning@11"));
}

TEST(Chuck, OpenedWhileTheSpindleTurnsOrStartedOpen) {
    EXPECT_THAT(said(kBegin + "M68\nM69\nM30\n"), ElementsAre("bar-let-go@4", "chuck-open-while-turning@4"));
    EXPECT_THAT(said(kBegin + "M05\nM68\nM03\nG00 X100.\nM30\n"),
                ElementsAre("bar-let-go@5", "chuck-open-while-turning@7"));
    EXPECT_THAT(said(kBegin + "M05\nM68\nM69\nM03\nG00 X100.\nM30\n"), ElementsAre("bar-let-go@5"));
    // Held by the second spindle, in step: the hand-over of a bar.
    EXPECT_THAT(said(kBegin + "M35\nM31\nM33\nM68\nM69\nM34\nM30\n"), testing::IsEmpty());
}

TEST(Chuck, OpenInACut) {
    EXPECT_THAT(said(kBegin + "M05\nM68\nM03\n" + kPart + "M05\nM30\n"),
                ElementsAre("bar-let-go@5", "chuck-open-while-turning@7", "cut-with-chuck-open@8"));
}

// Of a piece that is not a bar the middle lies in front of the jaws: it tips out.
TEST(Chuck, OpenedWithNothingElseToHoldThePart) {
    const auto trial = shop::run(kBegin + "M05\nM68\nM30\n", bench(10));
    const auto found = shop::findings(*trial, "piece-let-go");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Stop);
    EXPECT_EQ(found[0].span.line, 5u);
    EXPECT_THAT(found[0].message, HasSubstr("20.0 mm in front"));  // its middle at 50, the jaws end at 30
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM68\nM30\n", bench(10)), testing::IsEmpty());
    EXPECT_THAT(said(kBegin + "M05\nM31\nM33\nM68\nM34\nM30\n", bench(10)), ElementsAre("piece-let-go@8"));
}

TEST(SecondChuck, IsHeldToItsOwnSpeed) {
    auto setup = bench();
    setup.secondSpindle->chuck.maxRevPerMin = 700;
    EXPECT_THAT(said(kBegin + "M35\nM31\nM33\nM34\nM36\nM30\n", setup),
                ElementsAre("speed-above-second-chuck-limit@4"));
    EXPECT_THAT(said(kBegin + "M31\nM05\nM33\nM34\nM30\n", setup), testing::IsEmpty());
    setup.secondSpindle->chuck.maxRevPerMin = 0;
    setup.secondSpindle->maxRevPerMin = 700;
    const auto trial = shop::run(kBegin + "M35\nM31\nM33\nM34\nM30\n", setup);
    EXPECT_EQ(shop::findings(*trial, "speed-above-second-chuck-limit").size(), 1u);
    EXPECT_EQ(shop::findings(*trial, "chuck-speed-not-given").size(), 1u);
}

TEST(Workholding, ManyPartsSayEachThingOnce) {
    EXPECT_THAT(said("#1=3\nG97 S800 M03\nT0404\nWHILE[#1GT0]DO1\nM68\nM69\n#1=#1-1\nEND1\nM30\n"),
                ElementsAre("bar-let-go@5", "chuck-open-while-turning@5"));
}

}  // namespace
}  // namespace firstoff
