// What single sweeps do to the bar, against elementary geometry.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/sweep_profile.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

constexpr double kPitch = 0.002;

Stock bar(double diameter, double length, double bore = 0) {
    Stock stock;
    stock.outerRadius = diameter / 2;
    stock.boreRadius = bore / 2;
    stock.frontZ = length;
    return stock;
}

Sweep line(double fromX, double fromZ, double toX, double toZ) {
    return {{fromZ, fromX / 2}, {toZ, toX / 2}, {}, Sweep::Path::Line};
}

ToolShape roundTool(double diameter) {
    Tool tool;
    tool.insertShape = 'R';
    tool.edgeLength = diameter;
    tool.tipNumber = 0;
    return toolShape(toolOutline(tool));
}

ToolShape sharpTool() {
    auto setup = firstoff::Setup{};
    return toolShape(shop::addTurningTool(setup, 1, 'D', 0, 93).cutting);
}

ToolShape grooveTool(double width) {
    auto setup = firstoff::Setup{};
    return toolShape(shop::addGroovingTool(setup, 1, width, 0).cutting);
}

TEST(Billet, BarHoldsTheVolumeOfACylinder) {
    const Billet billet(bar(50, 80));
    // Column sums round like 40,000 additions of numbers near 625: 1e-9 of the volume is far above that.
    const double volume = kPi * 25 * 25 * 80;
    EXPECT_NEAR(billet.volumeMm3(), volume, 1e-9 * volume);
}

TEST(Billet, TubeHoldsTheVolumeOfATube) {
    const Billet billet(bar(50, 80, 20));
    const double volume = kPi * (25 * 25 - 10 * 10) * 80;
    EXPECT_NEAR(billet.volumeMm3(), volume, 1e-9 * volume);
}

TEST(Billet, TurningDownTakesTheRing) {
    Billet billet(bar(50, 80));
    const double before = billet.volumeMm3();
    const Removed removed = billet.cut(line(40, 90, 40, 40), sharpTool(), 7);
    const double ring = kPi * (25 * 25 - 20 * 20) * 40;
    // The tip leads by 3 degrees, so the shoulder is left leaning over: 5 mm deep a triangle of 5 * 5 tan 3° / 2 stays,
    // of centroid radius 20 + 2 * 5 / 3 (Pappus). Faces are good to half a pitch.
    const double overhang = kPi * 2 * (20 + 10.0 / 3) * 0.5 * 5 * 5 * std::tan(radians(3));
    EXPECT_NEAR(removed.volumeMm3, ring - overhang, kPi * (25 * 25 - 20 * 20) * kPitch / 2);
    EXPECT_NEAR(removed.deepestMm, 5, 1e-12);
    // Removed and left are sums of the same columns.
    EXPECT_NEAR(billet.volumeMm3() + removed.volumeMm3, before, 1e-9 * before);
}

TEST(Billet, TaperLeavesTheVolumeOfACone) {
    Billet billet(bar(40, 50));
    // From the axis at the front to diameter 40, 30 mm back, and past it along the same line.
    const Removed removed = billet.cut(line(0, 50, 50, 50 - 37.5), sharpTool(), 1);
    const double cone = kPi * 20 * 20 * 30 / 3;
    // Column midpoints of a straight slope are off by pitch² / 12 of its second derivative only; the last one by half.
    EXPECT_NEAR(removed.volumeMm3, kPi * 20 * 20 * 30 - cone, 2 * kPi * 20 * 20 * kPitch / 2);
}

TEST(Billet, RoundInsertPlungedLeavesATorusSegment) {
    Billet billet(bar(60, 60));
    const double rho = 6;
    // Centre of the insert down to radius 30: half the circle is in the metal.
    const Removed removed = billet.cut(line(80, 30, 60, 30), roundTool(2 * rho), 1);
    // Pappus: area of the half circle times the way of its centroid, 4 rho / (3 pi) below its straight side.
    const double volume = kPi * rho * rho / 2 * 2 * kPi * (30 - 4 * rho / (3 * kPi));
    // Midpoint rule at the upright ends of the circle: about sqrt(2 rho pitch³) of area, here 3e-4 mm², on a
    // circumference of 190 mm.
    EXPECT_NEAR(removed.volumeMm3, volume, 0.06);
    EXPECT_NEAR(removed.deepestMm, rho, 1e-6);
    EXPECT_NEAR(removed.atZ, 30, kPitch);
}

TEST(Billet, GrooveTakesARing) {
    Billet billet(bar(60, 60));
    const Removed removed = billet.cut(line(70, 20, 40, 20), grooveTool(3), 1);
    // Both flanks of the groove stand on column borders.
    const double ring = kPi * (30 * 30 - 20 * 20) * 3;
    EXPECT_NEAR(removed.volumeMm3, ring, 1e-9 * ring);
}

TEST(Billet, FillingArcLeavesTheSphere) {
    Billet billet(bar(40, 60));
    // A sharp tip along a quarter circle about the axis, 20 mm radius, from the front of the ball to its equator.
    billet.cut({{60, 0}, {40, 20}, {40, 0}, Sweep::Path::ArcAnticlockwise}, sharpTool(), 1);
    std::vector<Interval> solids;
    for (double z : {40.5, 45.0, 52.0, 58.0, 59.5}) {
        const int column = billet.grid().columnNear(z);
        billet.intervals(column, solids);
        ASSERT_EQ(solids.size(), 1U) << z;
        const double dz = billet.grid().z(column) - 40;
        EXPECT_NEAR(solids[0].outer, std::sqrt(20 * 20 - dz * dz), 1e-9) << z;
    }
    // Half a ball and the rest of the bar; the first column at the equator may be off by its own depth.
    EXPECT_NEAR(billet.volumeMm3(), kPi * 20 * 20 * 40 + 2.0 / 3 * kPi * 20 * 20 * 20, 0.01);
}

// r (sin A + cos A - 1) for a chamfer of angle A cut along its own line without compensation: the imaginary tip runs on
// the line and the nose stands off it. Elementary geometry; 0.33137 mm for 45° and 0.8 mm.
TEST(Billet, UncompensatedNoseLeavesTheChamferProud) {
    auto setup = firstoff::Setup{};
    const ToolShape tool = toolShape(shop::addTurningTool(setup, 1, 'C', 0.8, 95).cutting);
    Billet billet(bar(40, 60));
    // Chamfer of 5 x 45°: from diameter 30 at the front to diameter 40, and on.
    billet.cut(line(20, 65, 50, 50), tool, 1);
    const int column = billet.grid().columnNear(57.5);
    std::vector<Interval> solids;
    billet.intervals(column, solids);
    ASSERT_EQ(solids.size(), 1U);
    const double onTheLine = 15 + (60 - billet.grid().z(column));
    const double a = radians(45);
    EXPECT_NEAR((solids[0].outer - onTheLine) * std::cos(a), 0.8 * (std::sin(a) + std::cos(a) - 1), 1e-9);
}

// Off the centre by h the edge cuts at sqrt(x² + h²): a tip that is moved to X0 leaves a pip of radius h.
TEST(Billet, ToolOffCentreLeavesAPip) {
    auto setup = firstoff::Setup{};
    const Tool& parting = shop::addPartingTool(setup, 1, 3, 0);
    const ToolShape tool = toolShape(parting.cutting, -0.15);
    Billet billet(bar(20, 30));
    billet.cut(line(30, 10, 0, 10), tool, 1);
    std::vector<Interval> solids;
    billet.intervals(billet.grid().columnNear(11.5), solids);
    ASSERT_EQ(solids.size(), 1U);
    EXPECT_DOUBLE_EQ(solids[0].inner, 0);
    EXPECT_NEAR(solids[0].outer, 0.15, 1e-12);
    // Two millimetres short of the centre: sqrt(1² + 0.15²).
    billet.cut(line(30, 20, 2, 20), tool, 2);
    billet.intervals(billet.grid().columnNear(21.5), solids);
    EXPECT_NEAR(solids.at(0).outer, std::sqrt(1 + 0.15 * 0.15), 1e-12);
}

TEST(Billet, CutPastTheCentreMeetsTheOtherSide) {
    Billet billet(bar(20, 30));
    billet.cut(line(30, 10, -4, 10), grooveTool(3), 1);
    std::vector<Interval> solids;
    billet.intervals(billet.grid().columnNear(11.5), solids);
    EXPECT_TRUE(solids.empty());
}

TEST(Billet, DrillLeavesItsCone) {
    auto setup = firstoff::Setup{};
    const ToolShape drill = toolShape(shop::addDrill(setup, 1, 10, 118).cutting);
    Billet billet(bar(40, 60));
    const Removed removed = billet.cut(line(0, 70, 0, 30), drill, 1);
    const double cone = 5 / std::tan(radians(59));
    const double volume = kPi * 25 * (30 - cone) + kPi * 25 * cone / 3;
    EXPECT_NEAR(removed.volumeMm3, volume, kPi * 25 * kPitch / 2);
}

// A blade fed into the face: the metal outside it stays, joined at the bottom of the groove.
TEST(Billet, FaceGrooveMakesTwoIntervals) {
    Billet billet(bar(60, 50));
    Outline blade = roundedPolygon({{0, 0}, {20, 0}, {20, 3}, {0, 3}}, {0, 0, 0, 0});
    billet.cut({{55, 15}, {44, 15}, {}, Sweep::Path::Line}, toolShape(blade), 3);
    std::vector<Interval> solids;
    billet.intervals(billet.grid().columnNear(47), solids);
    ASSERT_EQ(solids.size(), 2U);
    EXPECT_DOUBLE_EQ(solids[0].outer, 15);
    EXPECT_EQ(solids[0].outerCut, 3U);
    EXPECT_DOUBLE_EQ(solids[1].inner, 18);
    EXPECT_EQ(solids[1].innerCut, 3U);
    EXPECT_DOUBLE_EQ(solids[1].outer, 30);
    const double ring = kPi * (18 * 18 - 15 * 15) * 6;
    EXPECT_NEAR(billet.volumeMm3(), kPi * 30 * 30 * 50 - ring, 1e-9 * ring * 100);
    // A second plunge beside the first widens the same gap.
    billet.cut({{55, 17}, {44, 17}, {}, Sweep::Path::Line}, toolShape(blade), 4);
    billet.intervals(billet.grid().columnNear(47), solids);
    ASSERT_EQ(solids.size(), 2U);
    EXPECT_DOUBLE_EQ(solids[0].outer, 15);
    EXPECT_DOUBLE_EQ(solids[1].inner, 20);
    EXPECT_EQ(solids[1].innerCut, 4U);
}

TEST(Billet, ACutInTwoPartsIsTheCut) {
    Billet whole(bar(50, 80));
    Billet parts(bar(50, 80));
    auto setup = firstoff::Setup{};
    const ToolShape tool = toolShape(shop::addTurningTool(setup, 1, 'C', 0.8, 95).cutting);
    const Sweep sweep{{85, 24}, {30, 18}, {}, Sweep::Path::Line};
    whole.cut(sweep, tool, 1);
    parts.cut(firstPart(sweep, 0.37), tool, 1);
    parts.cut({firstPart(sweep, 0.37).to, sweep.to, {}, Sweep::Path::Line}, tool, 1);
    std::vector<Interval> a;
    std::vector<Interval> b;
    for (int column = 0; column < whole.grid().columns; ++column) {
        whole.intervals(column, a);
        parts.intervals(column, b);
        ASSERT_EQ(a.size(), b.size()) << column;
        for (std::size_t i = 0; i < a.size(); ++i) {
            // The split point is rounded to 1e-14; a strip at 6 degrees carries that to r.
            ASSERT_NEAR(a[i].outer, b[i].outer, 1e-12) << column;
            ASSERT_NEAR(a[i].inner, b[i].inner, 1e-12) << column;
        }
    }
}

// What is left does not depend on the order of the cuts, and cutting again what is cut removes nothing.
TEST(Billet, OrderOfCutsDoesNotMatter) {
    auto setup = firstoff::Setup{};
    const ToolShape turning = toolShape(shop::addTurningTool(setup, 1, 'C', 0.8, 95).cutting);
    const std::vector<std::pair<Sweep, ToolShape>> cuts{
        {line(40, 85, 36, 40), turning},
        {line(60, 60, 30, 60), grooveTool(3)},
        {{{70, 22}, {50, 22}, {60, 30}, Sweep::Path::ArcClockwise}, turning},
        {line(44, 30, 44, 80), turning},
    };
    Billet forwards(bar(50, 80));
    Billet backwards(bar(50, 80));
    for (const auto& [sweep, tool] : cuts) {
        forwards.cut(sweep, tool, 1);
        const double before = forwards.volumeMm3();
        EXPECT_EQ(forwards.cut(sweep, tool, 1).volumeMm3, 0);
        EXPECT_EQ(forwards.volumeMm3(), before);
    }
    for (auto cut = cuts.rbegin(); cut != cuts.rend(); ++cut) backwards.cut(cut->first, cut->second, 1);
    EXPECT_EQ(forwards.hash(), backwards.hash());
}

TEST(Billet, HolderTouchIsItsDepthInTheMetal) {
    const Billet billet(bar(50, 80));
    const Outline holder = roundedPolygon({{0, 0}, {20, 0}, {20, 30}, {0, 30}}, {0, 0, 0, 0});
    EXPECT_EQ(billet.deepestTouch(line(51, 100, 51, 20), holder), 0);
    EXPECT_NEAR(billet.deepestTouch(line(49, 100, 49, 20), holder), 0.5, 1e-12);
    EXPECT_EQ(billet.deepestTouch(line(10, 100, 10, 80.1), holder), 0);
}

}  // namespace
}  // namespace firstoff
