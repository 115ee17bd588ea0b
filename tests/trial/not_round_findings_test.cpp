// Findings on bars that are not round, and on parts with a thread: what is metal over a part of the revolution only is
// metal, and what a thread has taken away is none.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "tests/support/tip_path.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

constexpr double kCornerRadius = 17.320508;  // of a hexagon of 30 across flats, elementary geometry
constexpr double kFigureMm = 1e-5;           // what cuts are kept to, as float

firstoff::Setup bench(Stock::Shape shape, double across, double outerRadius) {
    auto setup = shop::barStock(2 * outerRadius, 60);
    setup.stock.shape = shape;
    setup.stock.acrossFlats = across;
    shop::addTurningTool(setup, 1, 'C', 0.4);
    shop::addTurningTool(setup, 2, 'D', 0.4, 93);
    shop::addGroovingTool(setup, 3, 3, 0.2);
    shop::addDrill(setup, 9, 10);
    return setup;
}

firstoff::Setup hexagon() {
    return bench(Stock::Shape::Hexagon, 30, 15 / std::cos(kPi / 6));
}
firstoff::Setup square() {
    return bench(Stock::Shape::Square, 30, 15 * std::sqrt(2.0));
}
// 30 mm, its axis 1 mm off that of the spindle.
firstoff::Setup eccentric() {
    auto setup = bench(Stock::Shape::Round, 0, 16);
    setup.stock.eccentricity = 1;
    return setup;
}
firstoff::Setup roundBar() {
    return bench(Stock::Shape::Round, 0, 15);
}

std::string section(const std::string& tool, const std::string& moves) {
    return tool + "\nG97 S800 M03\n" + moves + "G00 X120. Z60.\n";
}
std::string turnTo(const std::string& tool, const std::string& x) {
    return section(tool, "G00 X" + x + " Z4.\nG01 Z-20. F.1\nX46.\n");
}
std::string program(const std::string& sections) {
    return "G21 G40 G99\n" + sections + "M30\n";
}

double value(const Finding& finding, const std::string& name) {
    for (const auto& [known, figure] : finding.values) {
        if (known == name) return figure;
    }
    ADD_FAILURE() << finding.code << " has no " << name;
    return 0;
}

// --- Interrupted cuts -----------------------------------------------------------------------------------------------

struct Corners {
    const char* name;
    firstoff::Setup (*bar)();
    const char* x;
    double times, cornerMm, share;
};

void PrintTo(const Corners& c, std::ostream* out) {
    *out << c.name;
}

class OverCorners : public testing::TestWithParam<Corners> {};

TEST_P(OverCorners, AreNotedOncePerTool) {
    const Corners& c = GetParam();
    const auto trial = shop::run(program(turnTo("T0101", c.x) + turnTo("T0202", "27.")), c.bar());
    const auto notes = shop::findings(*trial, "interrupted-cut");
    ASSERT_EQ(notes.size(), 1u) << shop::found(*trial)
                                << ": the second tool meets corners at the shoulder only, a wedge of them";
    EXPECT_EQ(notes[0].severity, Severity::Note);
    EXPECT_EQ(value(notes[0], "times_per_rev"), c.times);
    EXPECT_NEAR(value(notes[0], "corner_mm"), c.cornerMm, kFigureMm);
    // A sector more or less at each end of a stretch.
    EXPECT_NEAR(value(notes[0], "in_metal"), c.share, c.times / 256);
    EXPECT_EQ(trial->verdict, Verdict::Clear) << shop::found(*trial);
}

// Where 15 / cos t > 16: 30° less acos(15 / 16) on both sides of each corner; likewise for the square at 17. The
// eccentric circle lies beyond 15.5 where cos t > (15.5² + 1 - 15²) / (2 * 15.5), by the law of cosines.
INSTANTIATE_TEST_SUITE_P(Bars, OverCorners,
                         testing::Values(Corners{"hexagon", hexagon, "32.", 6, kCornerRadius - 16,
                                                 12 * (kPi / 6 - std::acos(15. / 16)) / (2 * kPi)},
                                         Corners{"square", square, "34.", 4, 15 * std::sqrt(2.0) - 17,
                                                 8 * (kPi / 4 - std::acos(15. / 17)) / (2 * kPi)},
                                         Corners{"eccentric", eccentric, "31.", 1, 0.5,
                                                 std::acos((15.5 * 15.5 + 1 - 225) / 31) / kPi}),
                         [](const testing::TestParamInfo<Corners>& bar) { return std::string(bar.param.name); });

TEST(InterruptedCut, FacingAHexagonIsOne) {
    const auto trial = shop::run(program(section("T0101", "G00 X40. Z0.\nG01 X-0.8 F.1\nG00 Z4.\n")), hexagon());
    const auto notes = shop::findings(*trial, "interrupted-cut");
    ASSERT_EQ(notes.size(), 1u) << shop::found(*trial);
    EXPECT_EQ(value(notes[0], "times_per_rev"), 6);
    EXPECT_NEAR(value(notes[0], "corner_mm"), kCornerRadius - 15, kFigureMm);
    EXPECT_EQ(trial->verdict, Verdict::Clear) << shop::found(*trial);
}

TEST(InterruptedCut, OfARoundBarThereIsNone) {
    const auto trial = shop::run(program(turnTo("T0101", "28.") + turnTo("T0202", "27.")), roundBar());
    EXPECT_TRUE(shop::findings(*trial, "interrupted-cut").empty());
}

TEST(InterruptedCut, AnEccentricBarCutAllRoundIsNone) {
    const auto trial = shop::run(program(turnTo("T0101", "26.")), eccentric());
    EXPECT_TRUE(shop::findings(*trial, "interrupted-cut").empty()) << "its depth of cut changes, but never to nothing";
}

// --- What is metal over a part of the revolution --------------------------------------------------------------------

TEST(NotRound, ARapidIntoTheCornersOnly) {
    const auto trial = shop::run(program(section("T0101", "G00 X33. Z4.\nZ-10.\nX46.\n")), hexagon());
    const auto hits = shop::findings(*trial, "rapid-into-material");
    ASSERT_FALSE(hits.empty()) << shop::found(*trial);
    EXPECT_NEAR(value(hits[0], "depth_mm"), kCornerRadius - 16.5, kFigureMm);
}

TEST(NotRound, ARapidPastTheCorners) {
    const auto trial = shop::run(program(section("T0101", "G00 X34.8 Z4.\nZ-10.\nX46.\n")), hexagon());
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
}

// A steeply leaning edge leaves a wedge of the corners some 0.6 mm thick; round the whole circle that would be thin.
TEST(NotRound, AWedgeOfTheCornersIsAsThickAsItIs) {
    const std::string outAtRapid = program(section("T0202", "G00 X31. Z4.\nG01 Z-20. F.1\nG00 X46.\n"));
    auto steep = square();
    steep.tools[1].insertShape = 'V';
    steep.tools[1].insertAngle = radians(35);
    steep.tools[1].enteringAngle = radians(107.5);
    giveShape(steep.tools[1]);
    const auto crash = shop::run(outAtRapid, steep);
    EXPECT_EQ(shop::findings(*crash, "rapid-into-material").size(), 1u) << shop::found(*crash);
    // At 93 degrees it is 0.1 mm.
    const auto torn = shop::run(outAtRapid, square());
    EXPECT_TRUE(shop::findings(*torn, "rapid-into-material").empty()) << shop::found(*torn);
    EXPECT_EQ(shop::findings(*torn, "wedge-torn-at-rapid").size(), 1u) << shop::found(*torn);
}

// Drawn with a gap at the angle 0: the bar is as long as it is.
TEST(NotRound, DrillsInABarWithAGap) {
    auto setup = bench(Stock::Shape::CrossSection, 0, 20);
    Contour drawn;
    for (Point corner : {Point{-16, -12}, Point{-2, -12}, Point{-2, 12}, Point{-16, 12}}) drawn.push_back({corner, 0});
    setup.stock.crossSection = {drawn};
    setup.tools[3].fluteLength = 15;
    giveShape(setup.tools[3]);
    const auto trial = shop::run(program(section("T0909", "G00 X0 Z4.\nG01 Z-20. F.1\nG00 Z4.\n")), setup);
    EXPECT_EQ(shop::findings(*trial, "drill-deeper-than-flutes").size(), 1u) << shop::found(*trial);
}

TEST(NotRound, AHolderThatTouchesTheCornersOnly) {
    auto setup = hexagon();
    setup.tools[2].cuttingDepth = 6;
    giveShape(setup.tools[2]);
    const std::string groove = program(section("T0303", "G00 X44. Z-20.\nG01 X21. F.05\nG00 X44.\n"));
    const auto touching = shop::run(groove, setup);
    const auto hits = shop::findings(*touching, "holder-into-material");
    ASSERT_EQ(hits.size(), 1u) << shop::found(*touching);
    EXPECT_NEAR(value(hits[0], "depth_mm"), kCornerRadius - 16.5, kFigureMm);
    setup.tools[2].cuttingDepth = 8;
    giveShape(setup.tools[2]);
    const auto clear = shop::run(groove, setup);
    EXPECT_TRUE(shop::findings(*clear, "holder-into-material").empty()) << shop::found(*clear);
}

// A contour that falls steeper than the edge behind the nose: only the corners are gouged, and only where they stand.
TEST(NotRound, TheCornersCanBeGouged) {
    const auto cut = [](const char* from, const char* to) {
        return program(
            section("T0101", std::string("G00 X") + from + " Z4.\nG01 Z-10. F.1\nX" + to + " Z-13.\nX46.\n"));
    };
    const auto gouged = shop::run(cut("34.", "31."), hexagon());
    EXPECT_EQ(shop::findings(*gouged, "insert-cuts-behind-nose").size(), 1u) << shop::found(*gouged);
    const auto beyond = shop::run(cut("40.", "37."), hexagon());
    EXPECT_TRUE(shop::findings(*beyond, "insert-cuts-behind-nose").empty()) << shop::found(*beyond);
}

// Common work leaves nothing to complain of on any bar: face, drill, turn the corners off, groove, chamfer.
TEST(NotRound, CommonWorkIsClear) {
    const std::string work = program(section("T0101", "G00 X48. Z0.\nG01 X-0.8 F.1\nG00 Z2.\n") +
                                     section("T0909", "G00 X0 Z4.\nG01 Z-20. F.1\nG00 Z4.\n") +
                                     section("T0202", "G00 X26. Z2.\nG01 Z-15. F.1\nX28. Z-16.\nX48.\n") +
                                     section("T0303", "G00 X48. Z-14.\nX30. F.1\nG01 X22. F.05\nX30.\nG00 X48.\n"));
    for (auto bar : {hexagon, square, eccentric}) {
        const auto trial = shop::run(work, bar());
        EXPECT_EQ(trial->verdict, Verdict::Clear) << shop::found(*trial);
    }
}

// --- What a thread has taken away -----------------------------------------------------------------------------------

// A full profile tops the crest to 24; a rapid 0.02 mm beside it meets nothing, though 24.1 was there before.
TEST(OnAThread, ToppedCrestsAreGone) {
    const auto rapidAt = [](const char* x) {
        auto setup = shop::barStock(40, 60);
        shop::addTurningTool(setup, 1, 'C', 0.4);
        Tool& insert = shop::addFullProfile(setup, 5, 2);
        insert.profile = ThreadProfile::Full;
        insert.cuttingDepth = 1.227;  // h3 of ISO 724
        giveShape(insert);
        std::string thread = "G00 X30. Z6.\n";
        for (const char* pass : {"23.2", "22.6", "22.1", "21.546"}) {
            thread += std::string("G92 X") + pass + " Z-20. F2.\n";
        }
        return shop::run(
            program(section("T0101", "G00 X24.1 Z4.\nG01 Z-24. F.1\nX46.\nG00 Z4.\n") + section("T0505", thread) +
                    section("T0101", std::string("G00 X") + x + " Z4.\nZ-12.\nX46.\n")),
            setup);
    };
    const auto beside = rapidAt("24.03");
    EXPECT_TRUE(shop::findings(*beside, "rapid-into-material").empty()) << shop::found(*beside);
    const auto into = rapidAt("23.9");
    const auto hits = shop::findings(*into, "rapid-into-material");
    ASSERT_FALSE(hits.empty()) << shop::found(*into);
    EXPECT_NEAR(value(hits[0], "depth_mm"), 0.05, 0.01);
}

}  // namespace
}  // namespace firstoff
