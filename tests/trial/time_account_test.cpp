// Where the cycle time goes, on jobs small enough to be reckoned by hand.
#include "sim/trial/time_account.h"

#include <gtest/gtest.h>

#include <numeric>

#include "sim/output/time_report.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// Bar D 50, 1 mm proud of the datum.
firstoff::Setup bench() {
    firstoff::Setup setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addTurningTool(setup, 3, 'C', 0.4);
    return setup;
}

// 20 mm at 0.25 * 800 = 200 mm/min in metal, and what is in air before and behind it.
constexpr const char* kTwoTools =
    "N1 T0101 (ROUGH)\nG97 G99 S800 M03 M08\nG00 X46. Z3.\nG01 Z-20. F.25\nX51.\nG00 X120. Z60.\nG04 X2.\nM09\n"
    "N2 T0303 (FINISH)\nG97 G99 S800 M03 M08\nG00 X44. Z3.\nG01 Z-20. F.1\nX51.\nG00 X120. Z60.\nM09\nM30\n";

void expectEverySecondOnce(const Trial& trial) {
    const auto sum = [](const std::vector<TimeRow>& rows) {
        return std::accumulate(rows.begin(), rows.end(), 0.0,
                               [](double s, const TimeRow& row) { return s + row.share.total(); });
    };
    const double cycle = trial.timeline.cycleTimeS;
    const double rounding = 1e-12 * cycle * static_cast<double>(trial.timeline.moves.size() + 1);
    EXPECT_NEAR(trial.time.whole.total(), cycle, rounding);
    EXPECT_NEAR(sum(trial.time.tools), cycle, rounding);
    EXPECT_NEAR(sum(trial.time.operations), cycle, rounding);
    EXPECT_NEAR(trial.time.whole.of(TimeKind::Cutting), trial.cuttingTimeS, rounding);
    EXPECT_NEAR(trial.time.whole.of(TimeKind::Cutting) + trial.time.whole.of(TimeKind::Air), trial.timeline.feedTimeS,
                rounding);
}

TEST(TimeAccount, TellsTheKindsApart) {
    firstoff::Setup setup = bench();
    setup.machine.times.coolantS = 0.5;
    const auto trial = shop::run(kTwoTools, setup);
    const TimeShare& whole = trial->time.whole;
    expectEverySecondOnce(*trial);
    // At feed: Z3 to Z-20 in one move and 2.5 or 3.5 mm out of it. In metal: from the face at Z1 on, 21 mm, known to a
    // thousandth of the move, and no more than all of the way out.
    EXPECT_NEAR(whole.of(TimeKind::Cutting) + whole.of(TimeKind::Air), 25.5 / 200 * 60 + 26.5 / 80 * 60, 1e-9);
    const double along = 21.0 / 200 * 60 + 21.0 / 80 * 60, known = 1e-3 * (23.0 / 200 * 60 + 23.0 / 80 * 60);
    EXPECT_GE(whole.of(TimeKind::Cutting), along - known);
    EXPECT_LE(whole.of(TimeKind::Cutting), along + 2.5 / 200 * 60 + 3.5 / 80 * 60 + known);
    EXPECT_NEAR(whole.of(TimeKind::Dwell), 2, 1e-12);
    EXPECT_NEAR(whole.of(TimeKind::Other), 4 * 0.5, 1e-12);  // M08 and M09 for each tool
    EXPECT_NEAR(whole.of(TimeKind::Index), 2 * setup.machine.indexTimeS, 1e-12);
    EXPECT_EQ(whole.of(TimeKind::Spindle), 0);
    EXPECT_GT(whole.of(TimeKind::Rapid), 0);
}

// 2 mm to the face at Z1, 10 mm in metal: 0.6 s and 3 s at 200 mm/min. The place of the face is known to a thousandth
// of the way: loads are sampled until halving a stretch changes its metal by a ten-thousandth, so four of these of
// stretch.
TEST(TimeAccount, ALeadInIsNoCutting) {
    const auto trial =
        shop::run("T0101\nG97 G99 S800 M03\nG00 X46. Z3.\nG01 Z-9. F.25\nG00 X120. Z60.\nM30\n", bench());
    EXPECT_NEAR(trial->time.whole.of(TimeKind::Air), 0.6, 1e-3 * 3.6);
    EXPECT_NEAR(trial->cuttingTimeS, 3.0, 1e-3 * 3.6);
    expectEverySecondOnce(*trial);
}

// The second time over the same way there is nothing left to cut.
TEST(TimeAccount, ASpringPassIsAir) {
    const std::string pass = "G00 X46. Z3.\nG01 Z-9. F.25\nG00 X60.\n";
    const std::string start = "T0101\nG97 G99 S800 M03\n", end = "G00 X120. Z60.\nM30\n";
    const auto once = shop::run(start + pass + end, bench());
    const auto twice = shop::run(start + pass + pass + end, bench());
    EXPECT_NEAR(twice->cuttingTimeS, once->cuttingTimeS, 1e-9);
}

// What no sequence number begins goes by its tool and the line of its first move.
TEST(TimeAccount, WithoutSequenceNumbersOperationsGoByTool) {
    const auto trial = shop::run(
        "T0101\nG97 G99 S800 M03\nG00 X46. Z3.\nG01 Z-9. F.25\nG00 X120. Z60.\nT0303\nG00 X44. Z3.\nG01 Z-9. F.1\n"
        "G00 X120. Z60.\nM30\n",
        bench());
    const TimeAccount& time = trial->time;
    ASSERT_EQ(time.operations.size(), 2u);
    EXPECT_EQ(time.operations[0].name, time.tools[0].name + ", from line 1");
    EXPECT_EQ(time.operations[1].name, time.tools[1].name + ", from line 6");
    EXPECT_EQ(time.operations[1].station, 3);
    expectEverySecondOnce(*trial);
}

TEST(TimeAccount, GoesByToolAndBySequenceNumber) {
    const auto trial = shop::run(kTwoTools, bench());
    const TimeAccount& time = trial->time;
    ASSERT_EQ(time.tools.size(), 2u);
    EXPECT_EQ(time.tools[0].station, 1);
    EXPECT_EQ(time.tools[1].station, 3);
    EXPECT_EQ(time.tools[0].name.substr(0, 5), "T0101");
    ASSERT_EQ(time.operations.size(), 2u);
    EXPECT_EQ(time.operations[0].name, "N1 ROUGH");
    EXPECT_EQ(time.operations[1].name, "N2 FINISH");
    EXPECT_EQ(time.operations[1].block, 8u);
    EXPECT_EQ(time.tools[0].endTimed, time.tools[1].firstTimed);
}

// Most blocks numbered: those begin an operation that follow a remark, an empty line or a stop, or call a tool.
TEST(TimeAccount, KnowsSearchNumbersAmongMany) {
    const auto trial = shop::run(
        "N10 G21 G97 G99\n(OUTSIDE)\nN20 T0101\nN30 S800 M03 M08\nN40 G00 X46. Z3.\nN50 G01 Z-20. F.25\nN60 X54.\n"
        "N70 G00 X120. Z60.\nN80 M01\nN90 T0303\nN100 G97 G99 S800 M03 M08\nN110 G00 X44. Z3.\nN120 G01 Z-20. F.1\n"
        "N130 X54.\nN140 G00 X120. Z60.\nN150 M30\n",
        bench());
    std::vector<std::string> names;
    for (const TimeRow& row : trial->time.operations) names.push_back(row.name);
    EXPECT_EQ(names, (std::vector<std::string>{"N20 OUTSIDE", "N90"}));
    expectEverySecondOnce(*trial);
}

TEST(TimeAccount, WaitingForTheSpindleIsAKindOfItsOwn) {
    firstoff::Setup setup = bench();
    setup.machine.spindle.runUpS = 10;
    const auto trial = shop::run(kTwoTools, setup);
    EXPECT_GT(trial->time.whole.of(TimeKind::Spindle), 0.5);
    expectEverySecondOnce(*trial);
}

TEST(TimeAccount, FeedHoldsAreOther) {
    firstoff::Setup setup = bench();
    setup.overrides.holds = {{4, 7, {}}};
    const auto trial = shop::run(kTwoTools, setup);
    EXPECT_NEAR(trial->time.whole.of(TimeKind::Other), 7, 1e-12);
    expectEverySecondOnce(*trial);
}

TEST(TimeAccount, AFeedHoldThatHoldsNothingIsSaid) {
    firstoff::Setup setup = bench();
    setup.overrides.holds = {{2, 7, {}}, {400, 7, {}}};
    const auto trial = shop::run(kTwoTools, setup);
    EXPECT_EQ(shop::findings(*trial, "feed-hold-without-move").size(), 2u);
    EXPECT_EQ(trial->time.whole.of(TimeKind::Other), 0);
}

// ---- what could be saved ----

TEST(TimeWaste, FeedInAirIsTold) {
    // From Z60 to the face at Z1 at 200 mm/min: 59 mm of air, 5 let pass. At rapid, 18 m/min, the 54 mm take 0.18 s.
    const auto trial = shop::run(
        "N1 T0101\nG97 G99 S800 M03 M08\nG00 X46. Z60.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\nM09\nM30\n", bench());
    ASSERT_EQ(trial->time.wastes.size(), 1u);
    const TimeWaste& waste = trial->time.wastes[0];
    EXPECT_EQ(waste.kind, TimeWaste::Kind::AirCut);
    EXPECT_EQ(waste.block, 3u);
    // The place is known to a 256th of what is left of the move behind the lead-in, 75 mm.
    EXPECT_NEAR(waste.lengthMm, 54, 0.3);
    EXPECT_NEAR(waste.seconds, 54.0 / 200 * 60 - 54.0 / 18000 * 60, 0.3 / 200 * 60);
    const auto notes = shop::findings(*trial, "feed-in-air");
    ASSERT_EQ(notes.size(), 1u);
    EXPECT_EQ(notes[0].severity, Severity::Note);
    EXPECT_EQ(notes[0].span.line, 4u);
    EXPECT_FALSE(notes[0].unproven);
}

TEST(TimeWaste, ALeadInIsLetPass) {
    const auto trial = shop::run(kTwoTools, bench());
    EXPECT_TRUE(trial->time.wastes.empty());
}

// 5.3 mm at 2 mm/min before a cut: the 0.3 mm behind the lead-in cost 9 s, but are no way to speak of.
TEST(TimeWaste, NoWayAtAllIsNotTold) {
    const auto trial =
        shop::run("N1 T0101\nG97 G99 S100 M03\nG00 X46. Z6.3\nG01 Z0.5 F.02\nG00 X120. Z60.\nM30\n", bench());
    EXPECT_TRUE(trial->time.wastes.empty());
    EXPECT_TRUE(shop::findings(*trial, "feed-in-air").empty());
}

TEST(TimeWaste, ARetractOutOfAllNeedIsTold) {
    // Between two cuts from X54 out to X250 and back: radius 125, 27 and 10 needed: 88 mm each way at 18 m/min.
    const auto trial = shop::run(
        "N1 T0101\nG97 G99 S800 M03 M08\nG00 X46. Z3.\nG01 Z-5. F.25\nX54.\nG00 X250.\nZ3.\nX42.\nG01 Z-5.\nX54.\n"
        "G00 X120. Z60.\nM09\nM30\n",
        bench());
    ASSERT_EQ(trial->time.wastes.size(), 1u);
    EXPECT_EQ(trial->time.wastes[0].kind, TimeWaste::Kind::LongRetract);
    EXPECT_NEAR(trial->time.wastes[0].seconds, 176.0 / 18000 * 60, 1e-9);
    EXPECT_NEAR(trial->time.wastes[0].lengthMm, 176, 1e-9);
    EXPECT_EQ(shop::findings(*trial, "long-retract").size(), 1u);
}

// ---- reports ----

TEST(TimeReport, PartsPerHourNeedTheChangeOfTheBar) {
    firstoff::Setup setup = bench();
    const auto without = shop::run(kTwoTools, setup);
    EXPECT_FALSE(partsPerHour(*without));
    EXPECT_NE(timeReport(*without).find("give change_part_s"), std::string::npos);
    setup.machine.times.changePartS = 100 - without->timeline.cycleTimeS;
    const auto trial = shop::run(kTwoTools, setup);
    ASSERT_TRUE(partsPerHour(*trial));
    EXPECT_NEAR(*partsPerHour(*trial), 36, 1e-9);
    EXPECT_NE(timeReport(*trial).find("36.0 parts an hour"), std::string::npos);
}

TEST(TimeReport, TheTableHasARowForAllToolsAndOperations) {
    const auto trial = shop::run(kTwoTools, bench());
    const std::string table = timeTable(*trial);
    EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 1 + 1 + 2 + 2);
    EXPECT_NE(table.find("\noperation,N1 ROUGH,1,"), std::string::npos);
}

TEST(TimeReport, SaysWhatWasTaken) {
    firstoff::Setup setup = bench();
    const auto has = [&](const char* words) {
        for (const std::string& entry : assumedOfTime(setup)) {
            if (entry.find(words) != std::string::npos) return true;
        }
        return false;
    };
    EXPECT_TRUE(has("no acceleration of the axes"));
    EXPECT_TRUE(has("how the spindle runs up"));
    setup.machine.axes.accelerationR = setup.machine.axes.accelerationZ = 3000;
    setup.machine.spindle.runUpS = 3;
    EXPECT_FALSE(has("no acceleration of the axes"));
    EXPECT_FALSE(has("how the spindle runs up"));
    EXPECT_TRUE(has("corners sharper than one degree"));
    setup.overrides.feed = 0.8;
    EXPECT_TRUE(has("feed 80 %"));
}

}  // namespace
}  // namespace firstoff
