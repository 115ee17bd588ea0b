// Taylor's law against worked answers; rows of tests/reference/taylor_tool_life.csv, which name their sources.
#include "sim/cutting/edge_life.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "tests/support/load_shop.h"
#include "tests/support/reckoned_cut.h"
#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

shop::ReferenceRow row(const std::string& id) {
    for (const shop::ReferenceRow& r : shop::referenceRows("taylor_tool_life.csv")) {
        if (r.text("id") == id) return r;
    }
    throw std::runtime_error("no row " + id);
}
double computed(const std::string& id) {
    return row(id).number("recomputed_value").value();
}

TEST(Taylor, RowsOfTheReference) {
    EXPECT_EQ(row("TL01").text("stated_quantity"), "V*T^n=C");
    // TL02: speed halved at n 0.25.
    EXPECT_NEAR(taylorLifeMin(100, 0.25, 300) / taylorLifeMin(200, 0.25, 300), computed("TL02"), 1e-9);
    // TL03: (180, 4.25) and (110, 35); the row prints four digits.
    const double n = taylorExponent(180, 4.25, 110, 35);
    EXPECT_NEAR(n, computed("TL03"), 5e-5);
    EXPECT_NEAR(180 * std::pow(4.25, n), 252.4, 0.05);
    EXPECT_NEAR(110 * std::pow(35, n), 252.4, 0.05);
    // TL04, from memory: three times longer, that is four times as long.
    EXPECT_NEAR(taylorLifeMin(50, 0.5, 400) / taylorLifeMin(100, 0.5, 400) - 1, 3, 1e-9);
    // TL05, TL06: change of life, four digits.
    EXPECT_NEAR(taylorLifeMin(80, 0.4, 450) / taylorLifeMin(100, 0.4, 450) - 1, computed("TL05"), 5e-5);
    EXPECT_NEAR(taylorLifeMin(130, 0.4, 450) / taylorLifeMin(100, 0.4, 450) - 1, computed("TL06"), 5e-5);
    EXPECT_NEAR(taylorLifeMin(25, 0.5, 300) / taylorLifeMin(100, 0.5, 300), computed("TL07"), 1e-9);
    EXPECT_NEAR(taylorLifeMin(200, 0.25, 400), computed("TL08"), 1e-9);
    EXPECT_NEAR(taylorSpeedMPerMin(15, 0.25, 300), computed("TL09"), 5e-3);
}

// A bar of 50 turned at 1000 rev/min, 0.2 mm a turn, over 100 mm: 30 s at 157.08 m/min.
TEST(EdgeLife, OfAPlainCut) {
    shop::LoadedCut cut(50, 100);
    cut.turn(25, 100, 0.2, 1000, {});
    Tool& tool = cut.setup.tools[0];
    tool.taylorN = 0.25;
    tool.taylorC = 400;
    tool.edgesPerInsert = 4;
    const auto uses = edgeUses(cut.timeline, cut.toolpath, cut.setup, cut.loads);
    ASSERT_EQ(uses.size(), 1u);
    const double speed = surfaceSpeedMPerMin(1000, 25);
    EXPECT_EQ(uses[0].toolIndex, 0);
    EXPECT_NEAR(uses[0].cuttingS, 30, 1e-9);
    EXPECT_NEAR(uses[0].greatestMPerMin, speed, 1e-9);
    EXPECT_NEAR(uses[0].lengthM, speed / 2, 1e-9);
    const double share = 0.5 / taylorLifeMin(speed, 0.25, 400);
    EXPECT_NEAR(uses[0].share.value(), share, 1e-12);
    EXPECT_NEAR(uses[0].partsPerEdge.value(), 1 / share, 1e-9);
    EXPECT_NEAR(uses[0].partsPerInsert.value(), 4 / share, 1e-9);
}

// TL08: at 200 m/min an edge with n 0.25 and C 400 lasts 16 min. A bar of 50 turned to 30 in one pass, 1273.24 rev/min:
// 200 m/min are run where the edge meets the bar first, 120 m/min at its nose.
TEST(EdgeLife, GoesByTheSpeedAtTheDiameterBeforeTheCut) {
    auto setup = shop::barStock(50, 80, 0);
    Tool& tool = shop::addTurningTool(setup, 1, 'C', 0.8, 95);
    tool.taylorN = 0.25;
    tool.taylorC = 400;
    const double revPerMin = 200e3 / (kPi * 50);
    const auto cut = shop::cutAndReckon(
        fmt::format("T0101\nG97 G99 S{:.4f} M03\nG00 X30 Z2\nG01 Z-40 F.2\nG00 X54\nM30\n", revPerMin),
        std::move(setup));
    const auto uses = edgeUses(cut.timeline, cut.toolpath, cut.setup, cut.loads);
    ASSERT_EQ(uses.size(), 1u);
    // The edge comes in and goes out over less than a millimetre of 40, at less speed there.
    EXPECT_NEAR(uses[0].greatestMPerMin, 200, 0.01);
    EXPECT_NEAR(uses[0].share.value() * row("TL08").number("recomputed_value").value() * 60, uses[0].cuttingS,
                0.02 * uses[0].cuttingS);
    EXPECT_GT(uses[0].cuttingS, 60 * 40 / (0.2 * revPerMin) * 0.98);
}

// In a bore the surface that is left is the farthest out.
TEST(EdgeLife, OfABoreGoesByTheBoreItLeaves) {
    auto setup = shop::barStock(80, 60, 0, 40);
    shop::addBoringBar(setup, 1, 'C', 0.4);
    const auto cut =
        shop::cutAndReckon("T0101\nG97 G99 S800 M03\nG00 X44 Z2\nG01 Z-30 F.1\nG00 X38\nZ5\nM30\n", std::move(setup));
    const auto uses = edgeUses(cut.timeline, cut.toolpath, cut.setup, cut.loads);
    ASSERT_EQ(uses.size(), 1u);
    EXPECT_NEAR(uses[0].greatestMPerMin, surfaceSpeedMPerMin(800, 22), 0.01);
}

TEST(EdgeLife, IsNotGuessedWithoutConstants) {
    shop::LoadedCut cut(50, 100);
    cut.turn(25, 100, 0.2, 1000, {});
    const auto uses = edgeUses(cut.timeline, cut.toolpath, cut.setup, cut.loads);
    ASSERT_EQ(uses.size(), 1u);
    EXPECT_GT(uses[0].cuttingS, 0);
    EXPECT_FALSE(uses[0].share);
    EXPECT_FALSE(uses[0].partsPerEdge);
    EXPECT_FALSE(uses[0].partsPerInsert);
}

// Half the way through air: half the time counts.
TEST(EdgeLife, CountsTimeInMetalOnly) {
    shop::LoadedCut cut(50, 100);
    cut.turn(25, 100, 0.2, 1000, {});
    auto& samples = cut.loads.samples;
    samples = {shop::sampleAt(0, 25), shop::sampleAt(0.5F, 25), shop::airAt(0.5F), shop::airAt(1)};
    cut.loads.runs[0].count = 4;
    const auto uses = edgeUses(cut.timeline, cut.toolpath, cut.setup, cut.loads);
    ASSERT_EQ(uses.size(), 1u);
    EXPECT_NEAR(uses[0].cuttingS, 15, 1e-9);
}

// Nothing is cut before the first sample and past the last.
TEST(EdgeLife, SamplesEndWhereTheMetalDoes) {
    shop::LoadedCut cut(50, 100);
    cut.turn(25, 100, 0.2, 1000, {});
    cut.loads.samples = {shop::sampleAt(0.25F, 25), shop::sampleAt(0.75F, 25)};
    cut.loads.runs[0].count = 2;
    const auto uses = edgeUses(cut.timeline, cut.toolpath, cut.setup, cut.loads);
    ASSERT_EQ(uses.size(), 1u);
    EXPECT_NEAR(uses[0].cuttingS, 15, 1e-9);
}

// Share and life do not depend on how finely a facing cut was sampled: at surface speed held by the spindle the speed
// is the same everywhere.
TEST(EdgeLife, OfAFacingCutAtConstantSurfaceSpeed) {
    shop::LoadedCut cut(80, 60);
    cut.face(40, 20, 0.2, 200);
    Tool& tool = cut.setup.tools[0];
    tool.taylorN = 0.25;
    tool.taylorC = 400;
    const auto uses = edgeUses(cut.timeline, cut.toolpath, cut.setup, cut.loads);
    ASSERT_EQ(uses.size(), 1u);
    const double seconds = cut.timeline.moves[0].t1 - cut.timeline.moves[0].t0;
    // T = pi (R1² - R2²) / (1000 vc f) min (formulas.md, opened).
    EXPECT_NEAR(seconds, 60 * kPi * (1600 - 400) / (1000 * 200 * 0.2), 1e-6);
    EXPECT_NEAR(uses[0].cuttingS, seconds, 1e-9);
    EXPECT_NEAR(uses[0].share.value(), seconds / 60 / taylorLifeMin(200, 0.25, 400), 1e-9);
}

}  // namespace
}  // namespace firstoff
