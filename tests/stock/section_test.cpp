// The half-section drawn from the columns.
#include "sim/stock/section.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/sweep_profile.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

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

ToolShape turningTool(char shape, double noseRadius, double kappa = 93) {
    auto setup = firstoff::Setup{};
    return toolShape(shop::addTurningTool(setup, 1, shape, noseRadius, kappa).cutting);
}

struct Measures {
    double area = 0;
    Point centroid;
    double volume() const { return 2 * kPi * centroid.r * area; }  // Pappus
};

// Of the area inside loops (metal to their left), by the trapezoid formula.
Measures measure(const std::vector<Loop>& loops) {
    Measures m;
    for (const Loop& loop : loops) {
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const Point a = loop.points[i];
            const Point b = loop.points[(i + 1) % loop.points.size()];
            const double w = cross(a, b) / 2;
            m.area += w;
            m.centroid = m.centroid + (w / 3) * (a + b);
        }
    }
    m.centroid = (1 / m.area) * m.centroid;
    return m;
}

bool hasPoint(const Loop& loop, Point p, double tolerance) {
    return std::any_of(loop.points.begin(), loop.points.end(), [&](Point q) { return distance(p, q) <= tolerance; });
}

TEST(Section, OfABarIsItsRectangle) {
    const std::vector<Loop> loops = sectionLoops(Billet(bar(50, 80)), tolerance::kSectionMm);
    ASSERT_EQ(loops.size(), 1U);
    EXPECT_EQ(loops[0].points.size(), 4U);
    EXPECT_EQ(loops[0].cuts, (std::vector<CutId>{kUncut, kUncut, kUncut, kUncut}));
    for (Point corner : {Point{0, 0}, Point{80, 0}, Point{80, 25}, Point{0, 25}}) {
        EXPECT_TRUE(hasPoint(loops[0], corner, 1e-12));
    }
    EXPECT_GT(measure(loops).area, 0);  // anticlockwise
}

TEST(Section, EdgesKnowTheirCut) {
    Billet billet(bar(50, 80));
    billet.cut(line(40, 90, 40, 50), turningTool('D', 0), 3);
    const std::vector<Loop> loops = sectionLoops(billet, tolerance::kSectionMm);
    ASSERT_EQ(loops.size(), 1U);
    const Loop& loop = loops[0];
    ASSERT_EQ(loop.points.size(), loop.cuts.size());
    int turned = 0;
    for (std::size_t i = 0; i < loop.points.size(); ++i) {
        const Point a = loop.points[i];
        const Point b = loop.points[(i + 1) % loop.points.size()];
        const Point middle = 0.5 * (a + b);
        const bool onCylinder = std::abs(middle.r - 20) < 1e-9 && middle.z > 50.01;
        const bool onShoulder = middle.z > 49.99 && middle.z < 50.3 && middle.r > 20.001;
        const bool wasCut = onCylinder || onShoulder;
        EXPECT_EQ(loop.cuts[i], wasCut ? 3U : kUncut) << middle.z << " " << middle.r;
        turned += wasCut ? 1 : 0;
    }
    EXPECT_GE(turned, 2);
}

// A square shoulder, a chamfer and a face: corners where they belong, faces upright.
TEST(Section, CornersAndFacesStandWhereTheyWereCut) {
    Billet billet(bar(50, 80));
    Outline square = roundedPolygon({{0, 0}, {60, 0}, {60, 40}, {0, 40}}, {0, 0, 0, 0});
    const ToolShape tool = toolShape(square);
    billet.cut(line(40, 80, 40, 50), tool, 1);
    billet.cut(line(0, 90, 0, 79), tool, 2);
    const ToolShape sharp = turningTool('D', 0);
    billet.cut(line(34, 80, 42, 76), sharp, 3);
    const std::vector<Loop> loops = sectionLoops(billet, tolerance::kSectionMm);
    ASSERT_EQ(loops.size(), 1U);
    // Chamfer from diameter 36 at the face (z 79) to diameter 40 at z 77: exact up to rounding, since both its ends and
    // the faces are on borders of columns and the section goes on to them.
    for (Point corner : {Point{79, 18}, Point{77, 20}, Point{50, 20}, Point{50, 25}, Point{79, 0}}) {
        EXPECT_TRUE(hasPoint(loops[0], corner, 1e-9)) << corner.z << " " << corner.r;
    }
    EXPECT_EQ(loops[0].points.size(), 7U);
}

TEST(Section, StaysWithinItsToleranceOfEveryColumn) {
    Billet billet(bar(40, 60));
    billet.cut({{62, 2}, {40, 20}, {40, 0}, Sweep::Path::ArcAnticlockwise}, turningTool('D', 0.4), 1);
    billet.cut({{38, 21}, {34, 21}, {36, 21}, Sweep::Path::ArcAnticlockwise}, turningTool('V', 0.2, 107.5), 2);
    for (double tolerance : {0.0005, 0.02}) {
        const std::vector<Loop> loops = sectionLoops(billet, tolerance);
        double worst = 0;
        std::vector<Interval> solids;
        for (const Loop& loop : loops) {
            for (std::size_t i = 0; i < loop.points.size(); ++i) {
                // Outer edges run from right to left.
                const Point b = loop.points[i];
                const Point a = loop.points[(i + 1) % loop.points.size()];
                if (!(b.z - a.z > 0.004)) continue;
                for (int c = billet.grid().columnNear(a.z) + 1; billet.grid().z(c) < b.z; ++c) {
                    billet.intervals(c, solids);
                    const double r = a.r + (b.r - a.r) * (billet.grid().z(c) - a.z) / (b.z - a.z);
                    double off = 1e9;
                    for (const Interval& s : solids) off = std::min(off, std::abs(s.outer - r));
                    worst = std::max(worst, off);
                }
            }
        }
        EXPECT_LE(worst, tolerance * (1 + 1e-9)) << tolerance;
        EXPECT_GT(worst, tolerance / 10) << "the reduction does not use its tolerance";
    }
}

TEST(Section, CoarseHasFewPoints) {
    Billet billet(bar(40, 60));
    billet.cut({{60, 0}, {40, 20}, {40, 0}, Sweep::Path::ArcAnticlockwise}, turningTool('D', 0.8), 1);
    EXPECT_LT(sectionLoops(billet, 0.02)[0].points.size(), 40U);
}

TEST(Section, AToolChangeOnOneDiameterKeepsBothSurfacesApart) {
    Billet billet(bar(40, 60));
    const ToolShape tool = turningTool('D', 0);
    billet.cut(line(36, 70, 36, 40), tool, 0);
    billet.cut(line(36, 40, 36, 20), tool, 1);
    const std::vector<std::uint16_t> tools{0, 1};
    const std::vector<Loop> loops = sectionLoops(billet, 0.02, 0, tools);
    ASSERT_EQ(loops.size(), 1U);
    EXPECT_TRUE(hasPoint(loops[0], {40, 18}, 0.003));
    EXPECT_FALSE(hasPoint(sectionLoops(billet, 0.02)[0], {40, 18}, 0.003));
}

// An inside cavity that opens nowhere along z in one column list: a face groove under an overhang, two loops or one,
// always the area of the metal.
TEST(Section, AreaAndVolumeAreThoseOfTheColumns) {
    Billet billet(bar(60, 50, 10));
    const ToolShape blade = toolShape(roundedPolygon({{0, 0}, {20, 0}, {20, 3}, {0, 3}}, {0, 0, 0, 0}));
    billet.cut({{55, 15}, {44, 15}, {}, Sweep::Path::Line}, blade, 1);
    billet.cut({{44, 15}, {44, 19}, {}, Sweep::Path::Line}, blade, 2);
    billet.cut(line(70, 20, 40, 22), turningTool('D', 0.8), 3);
    const Measures m = measure(sectionLoops(billet, tolerance::kSectionMm));
    // 0.5 µm over a boundary of some 250 mm of section, at 30 mm radius at most.
    EXPECT_NEAR(m.volume(), billet.volumeMm3(), 0.0005 * 250 * 2 * kPi * 30);
}

// --- Centroids, by Pappus and elementary geometry -------------------------------------------------------------------

TEST(Section, CentroidOfACone) {
    Billet billet(bar(40, 30));
    billet.cut(line(0, 30, 60, -15), turningTool('D', 0), 1);
    const Measures m = measure(sectionLoops(billet, tolerance::kSectionMm));
    // The half-section is a triangle with legs 20 and 30; faces and the tip within a pitch.
    EXPECT_NEAR(m.area, 300, 0.03);
    EXPECT_NEAR(m.centroid.z, 10, 0.002);
    EXPECT_NEAR(m.centroid.r, 20.0 / 3, 0.002);
}

TEST(Section, CentroidOfAFillet) {
    // A sharp tip around a quarter circle leaves a fillet of 5 mm between diameter 30 and diameter 40.
    Billet billet(bar(40, 30));
    const ToolShape sharp = toolShape(roundedPolygon({{0, 0}, {40, 1}, {40, 40}, {1, 40}}, {0, 0, 0, 0}));
    billet.cut(line(30, 40, 30, 15), sharp, 1);
    billet.cut({{15, 15}, {10, 20}, {15, 20}, Sweep::Path::ArcClockwise}, sharp, 2);
    const Measures m = measure(sectionLoops(billet, tolerance::kSectionMm));
    const double corner = 5 * 5 * (1 - kPi / 4);
    const double square = 20 * 10 + 15 * 20;
    EXPECT_NEAR(m.area, square + corner, 0.02);
    // First moment about z of the corner piece: its centroid lies 5 (10 - 3 pi) / (12 - 3 pi) from both legs.
    const double off = 5 * (10 - 3 * kPi) / (12 - 3 * kPi);
    const double zMoment = 200 * 5 + 300 * 20 + corner * (10 + off);
    EXPECT_NEAR(m.centroid.z, zMoment / (square + corner), 0.002);
}

}  // namespace
}  // namespace firstoff
