// How time goes on while a trial is played.
#include "gui/playing.h"

#include <gtest/gtest.h>

#include "gui/operator_panel.h"
#include "tests/support/trial_shop.h"

namespace firstoff::gui {
namespace {

constexpr const char* kProgram =
    "G21 G40 G99\n"     // 1
    "T0101\n"           // 2
    "G97 S600 M03\n"    // 3
    "G00 X70. Z2.\n"    // 4
    "\n"                // 5
    "G01 Z-10. F0.1\n"  // 6: 12 mm at 60 mm/min, 12 s
    "/2 G01 Z-16.\n"    // 7: 6 s
    "M01\n"             // 8
    "G32 Z-19. F1.\n"   // 9: 3 mm, 0.3 s
    "/ G00 X80.\n"      // 10
    "M30\n";            // 11

const Trial& trial() {
    static const auto made = [] {
        auto setup = shop::barStock(60, 80);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        return runTrial(readProgram(kProgram, "play.nc"), std::move(setup));
    }();
    return *made;
}

const TimelineIndex& index() {
    static const TimelineIndex made(trial());
    return made;
}

double startOf(std::uint32_t line) {
    return trial().startOfBlock(line - 1);
}

PlayPlace from(double timeS) {
    PlayPlace place;
    place.timeS = timeS;
    return place;
}

TEST(Playing, GoesOnAtThePaceAskedFor) {
    PlayRules rules;
    rules.speed = 2;
    const PlayPlace after = played(trial(), index(), from(startOf(6)), rules, 1.5);
    EXPECT_DOUBLE_EQ(after.timeS, startOf(6) + 3);
    EXPECT_TRUE(after.playing);
}

TEST(Playing, HaltsAtProgramStopsAndAtTheEnd) {
    const PlayPlace stopped = played(trial(), index(), from(startOf(7) + 5), {}, 4);
    EXPECT_FALSE(stopped.playing);
    EXPECT_DOUBLE_EQ(stopped.timeS, startOf(9));
    // From the stop it goes on.
    EXPECT_TRUE(played(trial(), index(), from(stopped.timeS), {}, 0.01).playing);
    const double cycle = trial().timeline.cycleTimeS;
    const PlayPlace ended = played(trial(), index(), from(cycle - 0.01), {}, 1);
    EXPECT_FALSE(ended.playing);
    EXPECT_DOUBLE_EQ(ended.timeS, cycle);
}

// Blank lines are no blocks to halt at; blocks that take no time are.
TEST(Playing, HaltsBeforeEveryBlockInSingleBlock) {
    PlayRules rules;
    rules.singleBlock = true;
    std::vector<std::uint32_t> lines;
    PlayPlace place = from(0);
    place.step = 0;
    for (int i = 0; i < 40 && place.timeS < trial().timeline.cycleTimeS; ++i) {
        place.playing = true;
        while (place.playing) place = played(trial(), index(), place, rules, 0.5);
        if (place.step < trial().toolpath.steps.size())
            lines.push_back(trial().program.lineOf(trial().toolpath.steps[place.step].block));
        if (!lines.empty() && lines.back() == 11) break;
    }
    EXPECT_EQ(lines, (std::vector<std::uint32_t>{2, 3, 4, 6, 7, 8, 9, 10, 11}));
}

TEST(Playing, HoldsTheFeedAtOnceButLetsAThreadPassEnd) {
    PlayPlace place = from(startOf(6) + 1);
    place.holding = true;
    const PlayPlace held = played(trial(), index(), place, {}, 0.5);
    EXPECT_FALSE(held.playing);
    EXPECT_DOUBLE_EQ(held.timeS, startOf(6) + 1);
    EXPECT_TRUE(holdsAtOnce(trial(), startOf(6) + 1));

    const double inThread = startOf(9) + 0.1;
    EXPECT_FALSE(holdsAtOnce(trial(), inThread));
    PlayPlace pass = from(inThread);
    pass.holding = true;
    pass = played(trial(), index(), pass, {}, 0.05);
    EXPECT_TRUE(pass.playing);
    pass = played(trial(), index(), pass, {}, 5);
    EXPECT_FALSE(pass.playing);
    EXPECT_NEAR(pass.timeS, startOf(10), 1e-9);  // rounding of times of seconds
}

TEST(Playing, LoopsAStretch) {
    PlayRules rules;
    rules.loop = TimeSpan{startOf(6) + 1, startOf(6) + 4};
    const PlayPlace after = played(trial(), index(), from(startOf(6) + 3.5), rules, 1);
    EXPECT_TRUE(after.playing);
    EXPECT_DOUBLE_EQ(after.timeS, startOf(6) + 1);
}

// 0.8 s for a block, be it 12 s or none long.
TEST(Playing, GivesEveryBlockTheSameTimeByBlock) {
    PlayRules rules;
    rules.byBlock = true;
    PlayPlace place = from(startOf(6));
    place = played(trial(), index(), place, rules, 0.4);
    EXPECT_NEAR(place.timeS, startOf(6) + 6, 1e-9);
    place = played(trial(), index(), place, rules, 0.4);
    EXPECT_NEAR(place.timeS, startOf(7), 1e-9);
    place = played(trial(), index(), place, rules, 0.4);
    EXPECT_NEAR(place.timeS, startOf(7) + 3, 1e-9);
}

TEST(OperatorPanel, KnowsWhichLevelsOfBlockSkipThereAre) {
    EXPECT_EQ(skipLevelsIn(trial().program), 1u << 1 | 1u << 2);
    EXPECT_EQ(skipLevelsIn(readProgram("G00 X1.\n", "plain.nc")), 0);
}

}  // namespace
}  // namespace firstoff::gui
