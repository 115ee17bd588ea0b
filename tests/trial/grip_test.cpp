// How much the chuck has of the bar, for what stands out of it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

// A bar with a length of its own in jaws of 30 mm; T01 turns its end, T06 drills, M21 brings up the centre.
firstoff::Setup bench(double diameter, double stickOut, double gripped) {
    auto setup = shop::barStock(diameter, stickOut);
    setup.stock.backZ = 30 - gripped;
    setup.stock.placeSpan = {SourceSpan::File::Setup, 31, 1, 12};
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addDrill(setup, 6, 8);
    Tailstock& tailstock = setup.tailstock.emplace();
    tailstock.quillRadius = 35;
    tailstock.quillLength = 120;
    tailstock.centreAngle = radians(60);
    tailstock.centreRadius = 14;
    tailstock.tipZ = 600;
    tailstock.advancedZ = 30 + stickOut - 5;
    setup.machineCodes = {{21, "centre forward", 2, {}, {}, MachineAction::TailstockAdvance, {}}};
    return setup;
}

// Takes 2 mm off the diameter of the end.
std::string turnEnd(double diameter, const std::string& before = "") {
    return "G21 G40 G99\nT0101\nG97 S500 M03\n" + before + "G00 X" + std::to_string(diameter + 4) + " Z3.\nX" +
           std::to_string(diameter - 2) + "\nG01 Z-10. F.1\nG00 X" + std::to_string(diameter + 40) + "\nM30\n";
}

std::vector<std::string> said(const firstoff::Setup& setup, const std::string& program) {
    std::vector<std::string> codes;
    const auto trial = shop::run(program, setup);
    for (const char* code : {"grip-too-short", "needs-support", "nothing-in-the-jaws"}) {
        for (const Finding& f : shop::findings(*trial, code)) {
            codes.push_back(f.code + (f.severity == Severity::Note ? " (note)" : ""));
        }
    }
    return codes;
}

struct GripCase {
    const char* name;
    double diameter, stickOut, gripped;
    std::vector<std::string> said;
};
void PrintTo(const GripCase& c, std::ostream* out) {
    *out << c.name;
}
class OfABar : public testing::TestWithParam<GripCase> {};

TEST_P(OfABar, IsHeldAgainstTheRules) {
    const GripCase& c = GetParam();
    EXPECT_EQ(said(bench(c.diameter, c.stickOut, c.gripped), turnEnd(c.diameter)), c.said);
}

// A third of the stick-out, half the diameter: common practice, no source. Up to 3 diameters free without support,
// caution from 4, support above 5: guides on deflection (reference values deflection.csv, rules of thumb, opened).
INSTANTIATE_TEST_SUITE_P(Grip, OfABar,
                         testing::Values(GripCase{"ordinary", 50, 90, 30, {}}, GripCase{"just a third", 40, 60, 20, {}},
                                         GripCase{"below a third", 40, 60, 19, {"grip-too-short"}},
                                         GripCase{"just half the diameter", 50, 40, 25, {}},
                                         GripCase{"below half the diameter", 50, 40, 24, {"grip-too-short"}},
                                         GripCase{"three diameters", 30, 90, 30, {}},
                                         GripCase{
                                             "a little more", 30, 100, 30, {"grip-too-short", "needs-support (note)"}},
                                         GripCase{"more than four", 20, 81, 30, {"needs-support"}},
                                         GripCase{"in front of the jaws", 40, 60, -5, {"nothing-in-the-jaws"}}));

TEST(Grip, SaysItsFiguresWhereTheSetUpSaysTheStickOut) {
    const auto trial = shop::run(turnEnd(40), bench(40, 60, 12));
    const auto found = shop::findings(*trial, "grip-too-short");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Warning);
    EXPECT_FALSE(found[0].unproven);
    EXPECT_EQ(found[0].span.file, SourceSpan::File::Setup);
    EXPECT_EQ(found[0].span.line, 31u);
    EXPECT_THAT(found[0].message, HasSubstr("12.00 mm of a diameter of 40.00 mm"));
    EXPECT_THAT(found[0].message, HasSubstr("asks for 20.00 mm"));
    EXPECT_THAT(found[0].message, HasSubstr("line 6"));
    EXPECT_THAT(found[0].remedy, HasSubstr("authorised people"));
}

TEST(Grip, OfSoftJawsIsTheDepthTheyAreBored) {
    auto setup = bench(50, 40, 30);
    setup.chuck.jaw = Chuck::Jaw::Soft;
    setup.chuck.gripLength = 26;
    EXPECT_THAT(said(setup, turnEnd(50)), testing::IsEmpty());
    setup.chuck.gripLength = 10;
    EXPECT_THAT(said(setup, turnEnd(50)), testing::ElementsAre("grip-too-short"));
}

// A spigot of 30 mm in the jaws, 12 long, under a head of 50: what the jaws bear on is the head's shoulder no more.
TEST(Grip, BearsOnTheThickestOnly) {
    auto setup = bench(50, 20, 30);
    setup.stock.shape = Stock::Shape::HalfSection;
    setup.stock.halfSection = {{{{0, 0}, 0}, {{50, 0}, 0}, {{50, 25}, 0}, {{26, 25}, 0}, {{26, 15}, 0}, {{0, 15}, 0}}};
    const auto trial = shop::run(turnEnd(50), setup);
    const auto found = shop::findings(*trial, "grip-too-short");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_THAT(found[0].message, HasSubstr("4.00 mm of a diameter of 50.00 mm"));
}

TEST(Grip, InABoreIsWhereItIsNarrowest) {
    auto setup = bench(80, 30, 30);
    setup.stock.boreRadius = 30;
    setup.chuck.grip = Chuck::Grip::Inside;
    EXPECT_THAT(said(setup, turnEnd(80)), testing::IsEmpty());
    setup.stock.backZ = 5;
    EXPECT_THAT(said(setup, turnEnd(80)), testing::ElementsAre("grip-too-short"));
    setup.stock.boreRadius = 0;
    EXPECT_THAT(said(setup, turnEnd(80)), testing::ElementsAre("nothing-in-the-jaws"));
}

// With the centre in before the cut: ten diameters, a quarter of the diameter in the jaws.
TEST(Grip, WithTheCentreInAsksForLess) {
    EXPECT_THAT(said(bench(20, 190, 6), turnEnd(20, "M21\n")), testing::IsEmpty());
    EXPECT_THAT(said(bench(20, 190, 4), turnEnd(20, "M21\n")), testing::ElementsAre("grip-too-short"));
    EXPECT_THAT(said(bench(20, 205, 30), turnEnd(20, "M21\n")), testing::ElementsAre("needs-support"));
    // Too late: the end is turned before the centre comes.
    EXPECT_THAT(said(bench(20, 190, 30), turnEnd(20) + "M21\n"),
                testing::ElementsAre("grip-too-short", "needs-support"));
}

TEST(Grip, WithASteadyRestCountsFromThere) {
    auto setup = bench(20, 150, 30);
    SteadyRest& rest = setup.steadyRest.emplace();
    rest.z = 130;
    EXPECT_THAT(said(setup, turnEnd(20)), testing::IsEmpty());
    rest.z = 100;
    EXPECT_THAT(said(setup, turnEnd(20)), testing::ElementsAre("needs-support (note)"));
}

TEST(Grip, IsNotAskedForByADrillOnTheAxisNorWithoutACut) {
    const auto setup = bench(20, 150, 12);
    EXPECT_THAT(said(setup, "G21 G40 G99\nT0606\nG97 S800 M03\nG00 X0 Z5.\nG01 Z-10. F.1\nG00 Z50.\nM30\n"),
                testing::IsEmpty());
    EXPECT_THAT(said(setup, "G21 G40 G99\nT0101\nG00 X100. Z50.\nM30\n"), testing::IsEmpty());
}

TEST(ChuckSpeed, NotGivenIsNotedOnceTheSpindleTurns) {
    auto setup = bench(50, 60, 30);
    setup.chuck.maxRevPerMin = 0;
    const auto trial = shop::run(turnEnd(50), setup);
    const auto found = shop::findings(*trial, "chuck-speed-not-given");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Note);
    EXPECT_EQ(shop::findings(*shop::run("G00 X100. Z50.\nM30\n", setup), "chuck-speed-not-given").size(), 0u);
}

}  // namespace
}  // namespace firstoff
