// What comes off the bar: pieces that fall, rings and cores that come loose beside metal that stays, and cut-offs that
// stop short.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// Columns stand 2 µm apart: faces and so widths are known that well.
constexpr double kFaceMm = 0.004;
constexpr double kRadialMm = 1e-6;  // columns are exact in r

// Bar, face 1 mm proud. T04 parts, 3 mm wide and gauged at its side towards the chuck; T05 grooves faces, 3 mm wide and
// gauged at its side towards the axis; T02 bores.
firstoff::Setup bench(double diameter, double bore = 0) {
    auto setup = shop::barStock(diameter, 60, 1, bore);
    shop::addTurningTool(setup, 1, 'C', 0.4);
    shop::addBoringBar(setup, 2, 'C', 0.4);
    shop::addPartingTool(setup, 4, 3, 0.2);
    Tool& blade = shop::addGroovingTool(setup, 5, 3, 0.2);
    blade.face = true;
    giveShape(blade);
    return setup;
}

firstoff::Setup hexagonBench(double acrossFlats) {
    auto setup = bench(acrossFlats / std::cos(kPi / 6));
    setup.stock.shape = Stock::Shape::Hexagon;
    setup.stock.acrossFlats = acrossFlats;
    return setup;
}

std::string section(const std::string& tool, const std::string& moves) {
    return tool + "\nG97 S800 M03\n" + moves + "G00 X120. Z60.\n";
}

std::string program(const std::string& sections) {
    return "G21 G40 G99\n" + sections + "M30\n";
}

std::string partAt(const std::string& z, const std::string& x) {
    return section("T0404", "G00 X54. Z" + z + "\nG01 X" + x + " F.05\nG00 X54.\n");
}

double value(const Finding& finding, const std::string& name) {
    for (const auto& [known, figure] : finding.values) {
        if (known == name) return figure;
    }
    ADD_FAILURE() << finding.code << " has no " << name;
    return 0;
}

// --- Pieces that fall -----------------------------------------------------------------------------------------------

// A rapid through the place where the piece was, along the axis.
const std::string kThroughThePlace = "T0101\nG97 S800 M03\nG00 X0 Z10.\nZ-16.\nZ10.\nG00 X120. Z60.\n";

TEST(Pieces, APartedPieceIsSeenNoMore) {
    const auto trial = shop::run(program(partAt("-20.", "-1.") + kThroughThePlace), bench(40));
    ASSERT_EQ(trial->stock->severances().size(), 1u);
    EXPECT_NEAR(trial->stock->severances()[0].volumeMm3, kPi * 400 * 18, 1e-6 * kPi * 400 * 18);
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
}

TEST(Pieces, WhileItHangsOnTheBarItIsSeen) {
    const auto trial = shop::run(program(partAt("-20.", "12.") + kThroughThePlace), bench(40));
    EXPECT_TRUE(trial->stock->severances().empty());
    EXPECT_THAT(shop::found(*trial), testing::HasSubstr("into-material"));
}

TEST(Pieces, OneOfAHexagonBarFallsWhole) {
    const auto trial = shop::run(program(partAt("-20.", "-1.") + kThroughThePlace), hexagonBench(30));
    ASSERT_EQ(trial->stock->severances().size(), 1u);
    // A regular hexagon of 30 mm across flats, 18 mm long; 264 sectors cut its corners a little short or long: the
    // midpoint rule over sec² with steps of 1.36° is off by 2e-4.
    const double wanted = std::sqrt(3.0) / 2 * 900 * 18;
    EXPECT_NEAR(trial->stock->severances()[0].volumeMm3, wanted, 3e-4 * wanted);
    EXPECT_TRUE(shop::findings(*trial, "rapid-into-material").empty()) << shop::found(*trial);
}

// Two grooves in a tube, and a boring bar that opens both in one move.
TEST(Pieces, TwoAtOnce) {
    const auto trial = shop::run(program(partAt("-10.", "24.") + partAt("-20.", "24.") +
                                         section("T0202", "G00 X25. Z4.\nG01 Z-30. F.1\nG00 X22.\nZ4.\n")),
                                 bench(40, 20));
    const auto& falls = trial->stock->severances();
    ASSERT_EQ(falls.size(), 2u);
    EXPECT_EQ(falls[0].timedMove, falls[1].timedMove);
    // Rings of 40 by 25: 7 mm between the grooves, 8 mm in front with what the face stood proud.
    const double ring = kPi * (400 - 12.5 * 12.5);
    EXPECT_NEAR(falls[0].volumeMm3, ring * 7, 1e-3 * ring);
    EXPECT_NEAR(falls[1].volumeMm3, ring * 8, 1e-3 * ring);
    EXPECT_TRUE(shop::findings(*trial, "ring-cut-free").empty()) << "there is nothing beside them";
}

// Its leading corner just reaches the axis.
TEST(Pieces, AParallelOrSlantingFrontFedToTheCentreParts) {
    for (double degrees : {0.0, 6.0, -6.0, 15.0}) {
        auto setup = bench(40);
        setup.tools[2].frontAngle = radians(degrees);
        giveShape(setup.tools[2]);
        const auto trial = shop::run(program(partAt("-20.", "0")), setup);
        EXPECT_EQ(trial->stock->severances().size(), 1u) << degrees;
        EXPECT_EQ(shop::foundInTheCut(*trial), "") << degrees;
    }
}

// --- Rings and cores ------------------------------------------------------------------------------------------------

const std::string kFaceGroove = section("T0505", "G00 X30. Z4.\nG01 Z-8. F.05\nG00 Z4.\n");

TEST(LooseRings, OneTrepannedOffTheFaceIsAPieceOfItsOwn) {
    const auto trial = shop::run(program(kFaceGroove + partAt("-8.", "35.4")), bench(40));
    ASSERT_EQ(trial->stock->severances().size(), 1u);
    const auto rings = shop::findings(*trial, "ring-cut-free");
    ASSERT_EQ(rings.size(), 1u) << shop::found(*trial);
    EXPECT_EQ(rings[0].severity, Severity::Note);
    EXPECT_NEAR(value(rings[0], "outer_diameter_mm"), 40, kRadialMm);
    EXPECT_NEAR(value(rings[0], "inner_diameter_mm"), 36, kRadialMm);
    EXPECT_NEAR(value(rings[0], "width_mm"), 6, kFaceMm);
    EXPECT_NEAR(trial->stock->severances()[0].volumeMm3, kPi * (400 - 324) * 6, 0.5);
    EXPECT_EQ(trial->verdict, Verdict::Clear) << shop::found(*trial);
}

TEST(LooseRings, CutShortOfTheGrooveItHangsOnTheWallBetween) {
    const auto trial = shop::run(program(kFaceGroove + partAt("-8.", "36.8")), bench(40));
    EXPECT_TRUE(trial->stock->severances().empty());
    EXPECT_TRUE(shop::findings(*trial, "ring-cut-free").empty());
    const auto necks = shop::findings(*trial, "piece-hangs-on-neck");
    ASSERT_EQ(necks.size(), 1u) << shop::found(*trial);
    EXPECT_NEAR(value(necks[0], "wall_mm"), 0.4, kRadialMm);
}

// A groove in the face deeper than the tube's bottom is thick: the core falls out of the wall that stays.
TEST(LooseRings, TheCoreOfARingThatStays) {
    auto setup = bench(60);
    setup.stock.shape = Stock::Shape::HalfSection;
    // A disc of 10 mm in front of a tube of 50 inside.
    const double front = setup.stock.frontZ;
    const Point corners[] = {{0, 25}, {front - 10, 25}, {front - 10, 0}, {front, 0}, {front, 30}, {0, 30}};
    Contour drawn;
    for (Point corner : corners) drawn.push_back({corner, 0});
    setup.stock.halfSection = {drawn};
    const auto trial = shop::run(program(section("T0505", "G00 X30. Z4.\nG01 Z-10. F.05\nG00 Z4.\n")), setup);
    const auto cores = shop::findings(*trial, "core-cut-free");
    ASSERT_EQ(cores.size(), 1u) << shop::found(*trial);
    EXPECT_NEAR(value(cores[0], "diameter_mm"), 30, kRadialMm);
    EXPECT_NEAR(value(cores[0], "length_mm"), 10, kFaceMm);
}

// --- Necks ----------------------------------------------------------------------------------------------------------

TEST(Necks, ACutOffThatStopsShort) {
    const auto trial = shop::run(program(partAt("-20.", "1.2")), bench(40));
    const auto necks = shop::findings(*trial, "piece-hangs-on-neck");
    ASSERT_EQ(necks.size(), 1u) << shop::found(*trial);
    EXPECT_EQ(necks[0].severity, Severity::Warning);
    EXPECT_EQ(necks[0].span.line, 5u);
    EXPECT_NEAR(value(necks[0], "diameter_mm"), 1.2, kRadialMm);
    EXPECT_NEAR(value(necks[0], "length_mm"), 3, kFaceMm);
}

TEST(Necks, OfATubeAreTheWall) {
    const auto trial = shop::run(program(partAt("-20.", "31.")), bench(40, 30));
    const auto necks = shop::findings(*trial, "piece-hangs-on-neck");
    ASSERT_EQ(necks.size(), 1u) << shop::found(*trial);
    EXPECT_NEAR(value(necks[0], "wall_mm"), 0.5, kRadialMm);
}

TEST(Necks, OfAHexagonBarAreRound) {
    const auto trial = shop::run(program(partAt("-20.", "2.")), hexagonBench(30));
    const auto necks = shop::findings(*trial, "piece-hangs-on-neck");
    ASSERT_EQ(necks.size(), 1u) << shop::found(*trial);
    EXPECT_NEAR(value(necks[0], "diameter_mm"), 2, kRadialMm);
}

TEST(Necks, AnEdgeOffCentreHeightLeavesOneWhateverXItIsFedTo) {
    auto setup = bench(40);
    setup.tools[2].centreHeight = 0.3;
    const auto trial = shop::run(program(partAt("-20.", "-1.")), setup);
    const auto necks = shop::findings(*trial, "piece-hangs-on-neck");
    ASSERT_EQ(necks.size(), 1u) << shop::found(*trial);
    EXPECT_NEAR(value(necks[0], "diameter_mm"), 0.6, kRadialMm);
}

struct Clear {
    const char* why;
    std::string sections;
    double diameter, bore;
};

void PrintTo(const Clear& c, std::ostream* out) {
    *out << c.why;
}

class NoNecks : public testing::TestWithParam<Clear> {};

TEST_P(NoNecks, AreClaimed) {
    const Clear& c = GetParam();
    const auto trial = shop::run(program(c.sections), bench(c.diameter, c.bore));
    EXPECT_TRUE(shop::findings(*trial, "piece-hangs-on-neck").empty()) << c.why << ": " << shop::found(*trial);
}

const std::string kTurnTo8 = section("T0101", "G00 X8. Z4.\nG01 Z-30. F.1\nX54.\n");

INSTANTIATE_TEST_SUITE_P(
    Grooves, NoNecks,
    testing::Values(
        Clear{"parted off", partAt("-20.", "-0.5"), 40, 0}, Clear{"a groove", partAt("-20.", "12."), 40, 0},
        Clear{"parted off by a later move",
              section("T0404", "G00 X54. Z-20.\nG01 X1.2 F.05\nG00 X54.\nG01 X-0.5 F.05\nG00 X54.\n"), 40, 0},
        Clear{"parted off by a later section", partAt("-20.", "1.2") + kTurnTo8 + partAt("-20.", "-0.5"), 40, 0},
        Clear{"a groove in a thin pin", kTurnTo8 + partAt("-20.", "3.8"), 40, 0},
        Clear{"the end faced off with the blade", partAt("-2.", "1.2"), 40, 0},
        Clear{"a tube parted off", partAt("-20.", "29."), 40, 30},
        Clear{"a groove in a tube", partAt("-20.", "36."), 40, 30},
        Clear{"a ring groove in a thin tube", partAt("-20.", "32.4"), 34, 30}));

}  // namespace
}  // namespace firstoff
