// Cycles as they come out on the part: to size, and without alarm over a tool that moves in its own hole or groove.
#include <gtest/gtest.h>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

constexpr double kCylinder = 0.001;  // diameters within a micrometre

firstoff::Setup bench(bool fullRetract = true) {
    auto setup = shop::barStock(50, 60, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addBoringBar(setup, 4, 'C', 0.4);
    shop::addGroovingTool(setup, 6, 3, 0.2);
    shop::addDrill(setup, 8, 20);
    setup.control.peckFullRetract = fullRetract;
    return setup;
}

struct Row {
    const char* name;
    const char* program;
    const char* expected;  // everything found in the cut, as code@line
};

class Cycles : public testing::TestWithParam<Row> {};

TEST_P(Cycles, FindExactlyThis) {
    for (bool fullRetract : {true, false}) {
        const auto trial = shop::run(GetParam().program, bench(fullRetract));
        EXPECT_EQ(shop::foundInTheCut(*trial), GetParam().expected);
    }
}

INSTANTIATE_TEST_SUITE_P(
    Trial, Cycles,
    testing::Values(
        Row{"pecks of a drill in its own hole",
            "T0808\nG97 S800 M03\nG00 X0 Z5.\nG83 Z-30. R-3. Q7000 F.1\nG80\nG74 R1.\nG74 Z-36. Q9000\nG00 Z60.\nM30\n",
            ""},
        Row{"pecks in grooves",
            "T0606\nG97 S600 M03\nG00 X54. Z-10.\nG75 R.5\nG75 X30. Z-20. P3000 Q2800 F.08\nG00 X120.\nM30\n", ""},
        Row{"relief in a groove",
            "T0606\nG97 S600 M03\nG00 X54. Z-10.\nG75 X44. Z-20. P3000 Q2500 R.3 F.08\nG00 X120.\nM30\n",
            "relief-at-first-plunge@4"},
        Row{"turning, taper and facing passes",
            "T0101\nG97 S800 M03\nG00 X54. Z2.\nG90 X46. Z-30. F.2\nX42.\nX42. Z-15. R-4.\nG94 X-1.6 Z0\nG00 "
            "X120.\nM30\n",
            ""},
        Row{"passes in a bore",
            "T0808\nG97 S800 M03\nG00 X0 Z5.\nG81 Z-40. R-3. F.1\nG80\nG00 Z60.\nT0404\nG97 S800 M03\nG00 X19. Z2.\n"
            "G90 X22. Z-30. F.1\nX24.\nX26. R1.\nG94 X30. Z-1.\nG00 Z60.\nM30\n",
            ""},
        Row{"a pass too deep at rapid", "T0101\nG97 S800 M03\nG00 X54. Z-5.\nG90 X46. Z-30. F.2\nG00 X120.\nM30\n",
            "rapid-into-material@4"},
        Row{"the spindle as an axis",
            "T0808\nM05\nG00 X30. Z5. C90.\nG83 Z-10. R-3. Q4000 F.1\nG80\nG01 X10. Z-5. C20.\nG00 Z60.\nM30\n",
            "c-axis-not-cut@3 hole-beside-axis@4"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) {
            if (c == ' ' || c == ',') c = '_';
        }
        return name;
    });

TEST(CyclesOnThePart, TurnAndGrooveToSize) {
    const auto trial = shop::run(
        "T0101\nG97 S800 M03\nG00 X54. Z2.\nG90 X46. Z-30. F.2\nX42. Z-20.\nG00 X120. Z60.\n"
        "T0606\nG97 S600 M03\nG00 X54. Z-26.\nG75 X36. Z-29. P3000 Q2500 F.08\nG00 X120.\nM30\n",
        bench());
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
    EXPECT_NEAR(shop::diameterAt(*trial, -10), 42, kCylinder);
    EXPECT_NEAR(shop::diameterAt(*trial, -22), 46, kCylinder);
    EXPECT_NEAR(shop::diameterAt(*trial, -26), 36, kCylinder);
    EXPECT_NEAR(shop::diameterAt(*trial, -28), 36, kCylinder);
    EXPECT_NEAR(shop::diameterAt(*trial, -40), 50, kCylinder);
}

// The edge is 3 mm wide and is gauged at its left corner: plunges at Z-20 and Z-25 leave a ring from Z-20 to Z-22.
TEST(CyclesOnThePart, PlungesTooFarApartLeaveARing) {
    const auto trial =
        shop::run("T0606\nG97 S600 M03\nG00 X54. Z-20.\nG75 X40. Z-25. P3000 Q5000 F.08\nG00 X120.\nM30\n", bench());
    EXPECT_EQ(shop::foundInTheCut(*trial), "groove-step-above-width@4");
    EXPECT_NEAR(shop::diameterAt(*trial, -18.5), 40, kCylinder);
    EXPECT_NEAR(shop::diameterAt(*trial, -21), 50, kCylinder);
    EXPECT_NEAR(shop::diameterAt(*trial, -23.5), 40, kCylinder);
}

TEST(CyclesOnThePart, NothingIsCutWithTheSpindleAsAnAxis) {
    const auto trial = shop::run("T0101\nM05\nG00 X54. Z-10. C0\nG98 G01 X40. F100.\nC90.\nG00 X120.\nM30\n", bench());
    EXPECT_EQ(trial->verdict, Verdict::NotProven);
    EXPECT_EQ(trial->removedVolumeMm3, 0);
}

}  // namespace
}  // namespace firstoff
