// What a program asks of its tools, and how they come to the work.
#include "sim/output/sheets/tool_use.h"

#include <gtest/gtest.h>

#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// Two tools, the first one again at the end with another offset; a station without a tool.
constexpr const char* kProgram =
    "O1\n"
    "G28 U0 W0\n"
    "G54 G40 G99\n"
    "T0101\n"  // line 4
    "G50 S2000\n"
    "G96 S150 M03\n"
    "G00 X54. Z0 M08\n"  // line 7: 2 mm beside the bar of 50
    "G01 X-1.6 F0.2\n"
    "G00 X46. Z2.\n"
    "G01 Z-20. F0.3\n"
    "G00 X60. Z5.\n"
    "G97 S800\n"
    "T0303 M09\n"       // line 13
    "G00 X52. Z-10.\n"  // line 14: 3 mm beside what is left, 46
    "G01 X40. F0.05\n"
    "G00 X80.\n"
    "T0111\n"  // line 17
    "G98 G00 X45. Z2.\n"
    "G01 Z-5. F100.\n"
    "G00 X80. Z50.\n"
    "T0900\n"
    "M30\n";

class ToolsOfAProgram : public testing::Test {
protected:
    static std::shared_ptr<const Trial> trial() {
        static const std::shared_ptr<const Trial> one = [] {
            firstoff::Setup setup = shop::barStock(50, 65);
            shop::addTurningTool(setup, 1, 'C', 0.8);
            shop::addGroovingTool(setup, 3, 3, 0.2);
            return shop::run(kProgram, setup);
        }();
        return one;
    }
};

TEST_F(ToolsOfAProgram, StandInOrderOfUse) {
    const std::vector<ToolUse> uses = toolUses(*trial());
    ASSERT_EQ(uses.size(), 3u);
    EXPECT_EQ(uses[0].station, 1);
    EXPECT_EQ(uses[0].offsets, (std::vector<int>{1, 11}));
    ASSERT_EQ(uses[0].calls.size(), 2u);
    EXPECT_EQ(trial()->program.lineOf(uses[0].calls[0]), 4u);
    EXPECT_EQ(trial()->program.lineOf(uses[0].calls[1]), 17u);
    EXPECT_EQ(uses[1].station, 3);
    EXPECT_EQ(uses[2].station, 9);
    EXPECT_EQ(uses[2].toolIndex, -1);
    EXPECT_FALSE(uses[2].revPerMin.any);
}

TEST_F(ToolsOfAProgram, HaveTheSpeedsAndFeedsOfTheirCuts) {
    const std::vector<ToolUse> uses = toolUses(*trial());
    const ToolUse& turning = uses[0];
    EXPECT_EQ(turning.surfaceSpeed.least, 150);
    EXPECT_EQ(turning.clamp.most, 2000);
    EXPECT_NEAR(turning.revPerMin.most, 2000, 1e-6) << "the clamp, at the centre of the face";
    EXPECT_EQ(turning.feedPerRev.least, 0.2);
    EXPECT_EQ(turning.feedPerRev.most, 0.3);
    EXPECT_EQ(turning.feedPerMin.most, 100);
    EXPECT_TRUE(turning.forward);
    EXPECT_FALSE(turning.reverse);
    EXPECT_TRUE(turning.coolantOn);
    EXPECT_GT(turning.towardChuck, 20);
    EXPECT_GT(turning.inwards, 25);
    EXPECT_EQ(turning.awayFromChuck, 0);
    const ToolUse& groove = uses[1];
    EXPECT_FALSE(groove.surfaceSpeed.any);
    EXPECT_NEAR(groove.revPerMin.least, 800, 1e-9);
    EXPECT_FALSE(groove.coolantOn);
    EXPECT_TRUE(groove.coolantOff);
}

TEST_F(ToolsOfAProgram, ComeToTheWorkAsFarAwayAsTheyDo) {
    const std::vector<FirstMoves> moves = firstMoves(*trial());
    ASSERT_EQ(moves.size(), 3u);
    // Chords, tolerance of the section and columns of 0.002: a hundredth, on the safe side.
    constexpr double kDrawn = 0.012;
    EXPECT_EQ(trial()->program.lineOf(moves[0].block), 7u);
    EXPECT_NEAR(2 * moves[0].programmed.r, 54, 1e-9);
    EXPECT_NEAR(moves[0].programmed.z, 0, 1e-9);
    EXPECT_NEAR(moves[0].edgeMm, 2, kDrawn);
    EXPECT_LE(moves[0].edgeMm, 2);
    EXPECT_EQ(trial()->program.lineOf(moves[1].block), 14u);
    EXPECT_NEAR(moves[1].edgeMm, 3, kDrawn);
    EXPECT_TRUE(moves[0].known);
}

TEST(ToolsOfNoProgram, AreNone) {
    EXPECT_TRUE(toolUses(Trial{}).empty());
    EXPECT_TRUE(firstMoves(Trial{}).empty());
}

}  // namespace
}  // namespace firstoff
