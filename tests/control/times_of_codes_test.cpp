// What codes say about time: exact stop, and the time of M codes that have none of their own.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

firstoff::Setup lathe() {
    firstoff::Setup setup = shop::barStock(50, 90);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    return setup;
}

Toolpath pathOf(const std::string& text, const firstoff::Setup& setup) {
    return interpret(readProgram(text, "program"), setup);
}

// For each feed move whether the axes are to stand at its end.
std::vector<bool> exactStops(const Toolpath& path) {
    std::vector<bool> stops;
    for (const Move& move : path.moves) {
        if (move.kind == MoveKind::Feed) stops.push_back(path.modals[move.modal].exactStop);
    }
    return stops;
}

TEST(ExactStop, HoldsUntilTheCuttingModeOrForOneBlock) {
    const Toolpath path = pathOf(
        "T0101\nG97 S1000 M03\nG00 X60. Z2.\nG01 X50. F.2\nG61 Z-5.\nX52.\nG64 Z-8.\nG09 X54.\nZ-9.\nM30\n", lathe());
    EXPECT_EQ(exactStops(path), (std::vector<bool>{false, true, true, false, true, false}));
    EXPECT_TRUE(path.findings.empty());
}

// Seconds of the dwells, in order.
std::vector<double> dwells(const Toolpath& path) {
    std::vector<double> seconds;
    for (const Move& move : path.moves) {
        if (move.kind == MoveKind::Dwell) seconds.push_back(move.seconds);
    }
    return seconds;
}

TEST(MachineCodeTimes, OfTheirOwnOrOfTheirSort) {
    firstoff::Setup setup = lathe();
    setup.machineCodes = {{22, "centre back", 0, {}, {}, MachineAction::TailstockRetract, {}},
                          {23, "centre back", 9, {}, {}, MachineAction::TailstockRetract, {}},
                          {63, "catcher forward", 0, {}, {}, MachineAction::None, {}},
                          {68, "chuck open", 0, {}, {}, MachineAction::ChuckOpen, {}},
                          {88, "high pressure", 0, {}, true, MachineAction::None, {}}};
    const std::string text = "T0101\nM22\nM23\nM63\nM68\nM88\nM08\nM09\nG04 X1.\nM30\n";
    // Without times only what moves something, or says its time, has a dwell.
    EXPECT_EQ(dwells(pathOf(text, setup)), (std::vector<double>{0, 9, 0, 1}));
    setup.machine.times = {1.5, 3, 0.4, 0.3, 0, 0};
    // M08 finds the coolant on and takes no time.
    const Toolpath path = pathOf(text, setup);
    EXPECT_EQ(dwells(path), (std::vector<double>{3, 9, 0.3, 1.5, 0.4, 0.4, 1}));
    for (const Move& move : path.moves) {
        if (move.kind != MoveKind::Dwell) continue;
        const bool ofCode = move.extra != kNoExtra && path.extras[move.extra].machineCode;
        EXPECT_EQ(ofCode, move.seconds != 1);
    }
}

}  // namespace
}  // namespace firstoff
