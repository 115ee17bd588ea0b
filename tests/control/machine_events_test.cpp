// M codes of the set-up that move something else than the turret: they take a dwell of their own, in the order of the
// program.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

Setup withCodes() {
    Setup setup = shop::barStock(50, 90);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    setup.machineCodes = {{21, "centre forward", 2.5, {}, {}, MachineAction::TailstockAdvance, {}},
                          {22, "centre back", 0, {}, {}, MachineAction::TailstockRetract, {}},
                          {63, "catcher forward", 1, {}, {}, MachineAction::None, {}},
                          {68, "chuck open", 0.5, SpindleDirection::Stopped, {}, MachineAction::ChuckOpen, {}}};
    return setup;
}

Toolpath pathOf(const std::string& text) {
    return interpret(readProgram(text, "program"), withCodes());
}

TEST(MachineEvents, EachTakesADwellOfItsTimeBeItNone) {
    const Toolpath path = pathOf("G28 U0 W0\nT0101\nM21\nG00 X60 Z5\nM22\nM63\nM30\n");
    ASSERT_EQ(path.machineEvents.size(), 2u);
    EXPECT_EQ(path.machineEvents[0].action, MachineAction::TailstockAdvance);
    EXPECT_EQ(path.machineEvents[0].block, 2u);
    const Move& forward = path.moves[path.machineEvents[0].duringMove];
    EXPECT_EQ(forward.kind, MoveKind::Dwell);
    EXPECT_EQ(forward.seconds, 2.5);
    EXPECT_EQ(forward.block, 2u);
    EXPECT_EQ(forward.from, forward.to);
    EXPECT_EQ(path.machineEvents[1].action, MachineAction::TailstockRetract);
    const Move& back = path.moves[path.machineEvents[1].duringMove];
    EXPECT_EQ(back.kind, MoveKind::Dwell);
    EXPECT_EQ(back.seconds, 0);
    EXPECT_EQ(back.block, 4u);
    EXPECT_EQ(path.machineEvents[1].duringMove, path.machineEvents[0].duringMove + 2);
    // The catcher only takes its time.
    EXPECT_EQ(path.moves.back().seconds, 1);
}

TEST(MachineEvents, InABlockWithAMoveItActsBeforeTheMove) {
    const Toolpath path = pathOf("T0101\nG00 X60 Z5 M21\nM30\n");
    ASSERT_EQ(path.machineEvents.size(), 1u);
    const std::uint32_t during = path.machineEvents[0].duringMove;
    ASSERT_LT(during + 1, path.moves.size());
    EXPECT_EQ(path.moves[during].kind, MoveKind::Dwell);
    EXPECT_EQ(path.moves[during + 1].kind, MoveKind::Rapid);
    EXPECT_EQ(path.moves[during + 1].block, path.moves[during].block);
}

TEST(MachineEvents, SwitchTheSpindleAsWell) {
    const Toolpath path = pathOf("T0101\nG97 S1000 M03\nM68\nM30\n");
    ASSERT_EQ(path.machineEvents.size(), 1u);
    const Move& open = path.moves[path.machineEvents[0].duringMove];
    EXPECT_EQ(path.modals[open.modal].spindle, SpindleDirection::Stopped);
}

// Where compensation waits for what comes, events wait with it and keep their place and their number of move.
TEST(MachineEvents, KeepTheirPlaceWithinACompensatedPathAndAtACorner) {
    for (const char* text : {"T0101\nG00 X60 Z5\nG42 G01 X50 Z2 F0.2\nZ-10\nM22\nX56 Z-20\nG40 G00 X60\nM30\n",
                             "T0101\nG00 X50 Z2\nG01 Z-10 ,C1 F0.2\nM22\nX56\nG00 X60\nM30\n"}) {
        const Toolpath path = pathOf(text);
        ASSERT_EQ(path.machineEvents.size(), 1u) << text;
        const std::uint32_t during = path.machineEvents[0].duringMove;
        ASSERT_LT(during, path.moves.size()) << text;
        const Move& dwell = path.moves[during];
        EXPECT_EQ(dwell.kind, MoveKind::Dwell) << text;
        EXPECT_EQ(dwell.block, path.machineEvents[0].block) << text;
        EXPECT_EQ(dwell.from, path.moves[during - 1].to) << text;
        EXPECT_EQ(path.moves[during + 1].from, dwell.to) << text;
    }
}

TEST(MachineEvents, OfAProfileActInTheFinishingCutOnly) {
    const Toolpath path = pathOf(
        "T0101\nG00 X52 Z2\nG71 U2 R0.5\nG71 P10 Q20 U0.4 W0.1 F0.2\nN10 G00 X30\nG01 Z-20 M22\nN20 X52\nG70 P10 Q20\n"
        "M30\n");
    ASSERT_EQ(path.machineEvents.size(), 1u);
    EXPECT_EQ(path.machineEvents[0].block, 5u);
}

TEST(MachineEvents, ComeInTheOrderOfTheMoves) {
    const Toolpath path = pathOf("T0101\nM21\nM22\nM21\nG00 X60 Z5\nM68\nM22\nM30\n");
    ASSERT_EQ(path.machineEvents.size(), 5u);
    for (std::size_t i = 1; i < path.machineEvents.size(); ++i) {
        EXPECT_LT(path.machineEvents[i - 1].duringMove, path.machineEvents[i].duringMove);
    }
}

}  // namespace
}  // namespace firstoff
