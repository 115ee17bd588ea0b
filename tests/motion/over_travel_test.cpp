// Over-travel wherever a program takes the turret: passes of cycles, the elbow of a slanting rapid, the way over a
// point to the reference position, compensated and uncompensated paths.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "sim/motion/timeline.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

// T01 sits 60 nearer to axis and chuck than the turret reference, which is at home at X360 Z400 of the lathe frame; Z0
// stands at 89.
firstoff::Setup bench() {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addGroovingTool(setup, 3, 3, 0.2);
    return setup;
}

// Lines with over-travel, and how far beyond, by axis.
std::string beyond(const std::string& program, firstoff::Setup setup) {
    const Timeline timeline = layOut(interpret(readProgram(program, "program"), setup), setup);
    std::string all;
    for (const Finding& f : timeline.findings) {
        if (f.code != "over-travel") continue;
        all += fmt::format("{}{}:{:.2f}", all.empty() ? "" : " ", f.span.line, f.values[2].second);
    }
    return all;
}

// Machine Z of a tip at work Z z: z + 89 + 60 - 400.
constexpr double machineZ(double z) {
    return z + 89 + 60 - 400;
}
// Machine X, as radius, of a tip at a diameter: x / 2 + 60 - 180.
constexpr double machineR(double x) {
    return x / 2 + 60 - 180;
}

TEST(OverTravel, OfACycleIsThatOfItsDeepestPass) {
    const std::string roughing =
        "G21 G40 G99\nT0101\nG97 S800 M03\nG00 X52. Z2.\nG71 U2. R.5\nG71 P10 Q20 U.4 W.1 F.2\nN10 G00 X30.\nG01 "
        "Z-40.\n"
        "N20 X52.\nG70 P10 Q20\nG00 X100. Z60.\nM30\n";
    auto setup = bench();
    setup.machine.travelZ.min = machineZ(-40);
    EXPECT_EQ(beyond(roughing, setup), "");
    // The finish cut goes to Z-40, the roughing passes end W0.1 in front of it.
    setup.machine.travelZ.min = machineZ(-39.95);
    EXPECT_EQ(beyond(roughing, setup), "8:0.05");
    setup = bench();
    setup.machine.travelR.min = machineR(30.2);
    EXPECT_EQ(beyond(roughing, setup), "7:0.20");  // of a diameter, as X counts
}

TEST(OverTravel, OfPecksAndPassesInOneBlock) {
    auto setup = bench();
    setup.machine.travelR.min = machineR(20);
    EXPECT_EQ(beyond("T0303\nG97 S800 M03\nG00 X52. Z-20.\nG75 R.5\nG75 X18. Z-26. P2000 Q2500 F.05\nM30\n", setup),
              "5:2.00");
    EXPECT_EQ(beyond("T0101\nG97 S800 M03\nG00 X52. Z2.\nG90 X40. Z-20. F.2\nX18.\nM30\n", setup), "5:2.00");
}

TEST(OverTravel, OfASlantingRapidStaysBetweenItsEnds) {
    // The elbow of a dog-leg has one coordinate of either end, so what lies within at both lies within at the elbow.
    auto setup = bench();
    setup.machine.travelZ = {machineZ(-20), 0};
    setup.machine.travelR = {machineR(20), 0};
    EXPECT_EQ(beyond("T0101\nG00 X20. Z40.\nX90. Z-20.\nM30\n", setup), "");
    EXPECT_EQ(beyond("T0101\nG00 X20. Z40.\nX90. Z-20.01\nM30\n", setup), "3:0.01");
}

TEST(OverTravel, OnTheWayToTheReferencePosition) {
    auto setup = bench();
    setup.machine.travelZ.max = 0;
    // G28 over a point beyond the end of Z; straight there it is fine.
    EXPECT_EQ(beyond("T0101\nG00 X60. Z10.\nG28 U0 W0\nM30\n", setup), "");
    EXPECT_EQ(beyond(fmt::format("T0101\nG00 X60. Z10.\nG28 X80. Z{:.3f}\nM30\n", 400 - 60 - 89 + 5.0), setup),
              "3:5.00");
    // A second reference position that lies outside.
    setup.machine.otherReferences[0] = Point{410, 180};
    EXPECT_EQ(beyond("T0101\nG00 X60. Z10.\nG30 U0 W0\nM30\n", setup), "3:10.00");
    // Machine coordinates.
    EXPECT_EQ(beyond("T0101\nG00 X60. Z10.\nG53 X0 Z1.\nM30\n", setup), "3:1.00");
}

TEST(OverTravel, OfACompensatedPathIsWhereTheTipReallyGoes) {
    auto setup = bench();
    const std::string contour =
        "T0101\nG97 S800 M03\nG00 X60. Z5.\nG42 G01 X40. Z2. F.2\nZ-20.\nX60.\nG40 G00 Z5.\nM30\n";
    // Along the face at Z-20 the tip of a tool with R0.8 stands at Z-20 too.
    setup.machine.travelZ.min = machineZ(-20);
    EXPECT_EQ(beyond(contour, setup), "");
    setup.machine.travelZ.min = machineZ(-19.99);
    EXPECT_EQ(beyond(contour, setup), "5:0.01");
}

}  // namespace
}  // namespace firstoff
