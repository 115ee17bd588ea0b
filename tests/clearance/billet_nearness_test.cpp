// How near bodies and outlines come to a billet, held against CGAL's distances to the turned shaft as a polyhedron.
//
// What may differ: the groups of columns of the hull (BilletHull::errorMm()), a pitch of columns in the plane, the
// flats that the shaft is cut into for CGAL, and kNearnessMm.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/base/units.h"
#include "sim/clearance/nearness.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/outline_chains.h"
#include "tests/support/exact_distance.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr int kFacets = 256;
constexpr double kBar = 30;  // radius

// Straight sides 2 apart, sharp, from the tip upwards.
Outline blade() {
    return roundedPolygon({{0, 0}, {2, 0}, {2, 80}, {0, 80}}, {0, 0, 0, 0});
}
// A sharp point between flanks at 45 degrees, the tip.
Outline point() {
    return roundedPolygon({{0, 0}, {80, 80}, {-80, 80}}, {0, 0, 0});
}

Stock bar() {
    Stock stock;
    stock.outerRadius = kBar;
    stock.frontZ = 100;
    return stock;
}

void cut(Billet& billet, const Outline& outline, Point from, Point to) {
    Sweep sweep;
    sweep.from = from;
    sweep.to = to;
    billet.cut(sweep, toolShape(outline), 1);
}

// A shaft turned in steps from the front with a blade, some of them chamfered or grooved. Kept as what it is made of:
// solids between two places, each convex.
struct Shaft {
    Billet billet{bar()};
    std::vector<ConvexPiece> solids;
    std::vector<std::vector<Point>> sections;  // of the same, r >= 0
    double flats = 0;

    void add(std::vector<Point> ends) {
        std::vector<Point> section{{ends[0].z, 0}, {ends[1].z, 0}, ends[1], ends[0]};
        sections.push_back(section);
        solids.push_back(turnedPiece(ends));
        flats = std::max(flats, shop::flatDepth(solids.back(), kFacets));
    }
};

// Places on whole columns, so that faces stand where they are said to.
double onColumns(double x) {
    return std::round(x * 50) / 50;
}

Shaft randomShaft(shop::Dice& dice) {
    Shaft shaft;
    double z = 0, r = kBar;
    std::vector<Point> steps{{0, kBar}};  // radius from that z on
    while (z < 80) {
        z = onColumns(z + dice.between(5, 30));
        r = onColumns(r * dice.between(0.6, 0.98));
        if (z > 95 || r < 4) break;
        steps.push_back({z, r});
    }
    for (std::size_t i = 1; i < steps.size(); ++i) {
        cut(shaft.billet, blade(), {102, steps[i].r}, {steps[i].z, steps[i].r});
    }
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const double to = i + 1 < steps.size() ? steps[i + 1].z : 100;
        double from = steps[i].z;
        switch (dice.below(3)) {
            case 0: {  // a groove of 2 mm
                if (to - from < 4) break;
                const double bottom = onColumns(steps[i].r * 0.7);
                cut(shaft.billet, blade(), {from + 1, 60}, {from + 1, bottom});
                shaft.add({{from, steps[i].r}, {from + 1, steps[i].r}});
                shaft.add({{from + 1, bottom}, {from + 3, bottom}});
                from += 3;
                break;
            }
            case 1: {  // the free edge chamfered by 1 mm
                const double next = i + 1 < steps.size() ? steps[i + 1].r : 0;
                // Not where the flank would reach into thicker steps behind.
                if (steps[i].r - next < 1 || to - from < 2 || steps[i].r - 1 + to - from < kBar) break;
                cut(shaft.billet, point(), {to, 60}, {to, steps[i].r - 1});
                shaft.add({{from, steps[i].r}, {to - 1, steps[i].r}});
                shaft.add({{to - 1, steps[i].r}, {to, steps[i].r - 1}});
                continue;
            }
            default:
                break;
        }
        shaft.add({{from, steps[i].r}, {to, steps[i].r}});
    }
    return shaft;
}

std::vector<ConvexPiece> randomBody(shop::Dice& dice) {
    std::vector<ConvexPiece> body;
    for (std::uint32_t i = 0; i <= dice.below(3); ++i) {
        const SpacePoint at{dice.between(-15, 15), dice.between(0, 20), dice.between(-15, 0)};
        if (dice.below(3) == 0) {
            body.push_back(cylinderPiece(at.z, at.z + dice.between(1, 20), dice.between(1, 8), at.r + 8, at.y + 8));
        } else {
            body.push_back(
                boxPiece(at, at + SpacePoint{dice.between(1, 20), dice.between(1, 30), dice.between(1, 20)}));
        }
    }
    return body;
}

double truthOf(const std::vector<ConvexPiece>& body, const Placing& at, const std::vector<ConvexPiece>& solids) {
    double gap = kInf;
    for (const ConvexPiece& piece : body) {
        std::vector<SpacePoint> swept;
        for (std::size_t i = 0; i < static_cast<std::size_t>(at.count); ++i) {
            Placing one = at;
            one.shifts[0] = at.shifts[i];
            const auto corners = shop::placed(shop::cornersOf(piece, kFacets), one);
            swept.insert(swept.end(), corners.begin(), corners.end());
        }
        for (const ConvexPiece& solid : solids) {
            gap = std::min(gap, shop::hullDistance(swept, shop::cornersOf(solid, kFacets)));
        }
    }
    return gap;
}

std::vector<SpacePoint> inPlane(const std::vector<Point>& points, Point by = {}, double side = 1) {
    std::vector<SpacePoint> out;
    for (Point p : points) out.push_back({p.z + by.z, side * p.r + by.r, 0});
    return out;
}

class RandomShafts : public testing::TestWithParam<int> {};

TEST_P(RandomShafts, BodiesComeAsNearAsToThePolyhedron) {
    shop::Dice dice(static_cast<std::uint64_t>(GetParam()) + 1000);
    const Shaft shaft = randomShaft(dice);
    const BilletHull hull(shaft.billet);
    for (int i = 0; i < 4; ++i) {
        SCOPED_TRACE(i);
        const std::vector<ConvexPiece> body = randomBody(dice);
        double flats = 0;
        for (const ConvexPiece& piece : body) flats = std::max(flats, shop::flatDepth(piece, kFacets));
        const Point from{dice.between(-20, 120), dice.between(10, 45)};
        Placing at = Placing::along(from, from + Point{dice.between(-20, 20), dice.between(-10, 30)});
        at.axisR = 90;
        at.turn = dice.between(-0.5, 0.5);
        const double truth = truthOf(body, at, shaft.solids);
        const double told = hull.nearness(BodyShape(body), at).gap;
        EXPECT_LE(told, truth + 1e-9);
        EXPECT_GE(told, truth - hull.errorMm() - flats - shaft.flats - kNearnessMm);
        const double near = hull.nearness(BodyShape(body), at, 2).gap;
        EXPECT_LE(near, truth + 1e-9);
        EXPECT_GE(near, std::min(2.0, told - kNearnessMm));
    }
}

TEST_P(RandomShafts, OutlinesComeAsNearInThePlane) {
    shop::Dice dice(static_cast<std::uint64_t>(GetParam()) + 2000);
    const Shaft shaft = randomShaft(dice);
    for (int i = 0; i < 8; ++i) {
        SCOPED_TRACE(i);
        const double a = dice.between(1, 12), b = dice.between(1, 30), nose = 0.3 * std::min(a, b);
        const Outline outline = roundedPolygon({{0, 0}, {a, 0}, {a, b}, {0, b}}, {nose, nose, 0, 0});
        constexpr double kChordMm = 1e-4;
        const std::vector<Point> corners = polyline(outline, kChordMm);
        const Point from{dice.between(-20, 120), dice.between(-50, 35)};
        const Point to = dice.below(3) == 0 ? from : from + Point{dice.between(-10, 10), dice.between(-5, 15)};
        std::vector<SpacePoint> swept = inPlane(corners, from);
        for (const SpacePoint& p : inPlane(corners, to)) swept.push_back(p);
        double truth = kInf;
        for (const auto& section : shaft.sections) {
            truth = std::min({truth, shop::hullDistance(swept, inPlane(section)),
                              shop::hullDistance(swept, inPlane(section, {}, -1))});
        }
        const double told = nearnessInPlane(shaft.billet, outline, Placing::along(from, to)).gap;
        const double pitch = shaft.billet.grid().pitch;
        EXPECT_LE(told, truth + 1e-9);
        EXPECT_GE(told, truth - pitch - kChordMm - kNearnessMm);
        const double near = nearnessInPlane(shaft.billet, outline, Placing::along(from, to), 2).gap;
        EXPECT_LE(near, truth + 1e-9);
        EXPECT_GE(near, std::min(2.0, told - kNearnessMm));
    }
}

TEST_P(RandomShafts, SwingsComeAsNearAsFineSteps) {
    shop::Dice dice(static_cast<std::uint64_t>(GetParam()) + 3000);
    const Shaft shaft = randomShaft(dice);
    const BilletHull hull(shaft.billet);
    const std::vector<ConvexPiece> body = randomBody(dice);
    const BodyShape shape(body);
    Placing at = Placing::at({dice.between(0, 100), dice.between(-40, 10)});
    at.axisR = 90;
    at.turn = dice.between(-1, 1);
    const double turnTo = at.turn + dice.between(-0.6, 0.6);
    const double reach = shape.reach(at.axisR), travel = reach * std::abs(turnTo - at.turn);
    const SwingNearness swing = hull.nearnessOfSwing(shape, at, turnTo);
    // Stepping by the hull itself, which is held against CGAL above.
    const double from = at.turn;
    double least = kInf, contact = -1;
    const int steps = static_cast<int>(std::ceil(travel / 0.02));
    for (int k = 0; k <= steps; ++k) {
        at.turn = from + (turnTo - from) * k / steps;
        const double gap = hull.nearness(shape, at, least).gap;
        least = std::min(least, gap);
        if (gap == 0 && contact < 0) contact = double(k) / steps;
    }
    EXPECT_LE(swing.nearest.gap, least + kNearnessMm);
    EXPECT_GE(swing.nearest.gap, least - 0.01 - swingBelow(least) - kNearnessMm);
    if (contact >= 0) {
        EXPECT_EQ(swing.nearest.gap, 0);
        EXPECT_LE(swing.fraction, contact + 1e-12);
        at.turn = from + (turnTo - from) * swing.fraction;
        EXPECT_LE(hull.nearness(shape, at).gap, 0.01 + kNearnessMm);
    }
}

INSTANTIATE_TEST_SUITE_P(Clearance, RandomShafts, testing::Range(0, 40));

TEST(BilletNearness, AHullBroughtUpToDateIsThatMadeAfresh) {
    shop::Dice dice(5);
    Billet billet(bar());
    BilletHull kept(billet);
    const BodyShape probe({boxPiece({-1, 0, -1}, {1, 50, 1})});
    for (int i = 0; i < 60; ++i) {
        const double z = dice.between(-5, 110), to = z + dice.between(-6, 6);
        cut(billet, i % 2 == 0 ? blade() : Outline(roundedPolygon({{0, 0}, {3, 3}, {-3, 3}}, {0.5, 0, 0})),
            {z, dice.between(12, 35)}, {to, dice.between(12, 35)});
        kept.update(billet, std::min(z, to) - 3, std::max(z, to) + 3);
        const BilletHull afresh(billet);
        for (int k = 0; k < 30; ++k) {
            const Placing at = Placing::at({dice.between(-10, 115), dice.between(0, 40)});
            EXPECT_EQ(kept.nearness(probe, at).gap, afresh.nearness(probe, at).gap);
        }
    }
}

TEST(BilletNearness, WhereNothingIsLeftThereIsNoNeedle) {
    Billet billet(bar());
    cut(billet, roundedPolygon({{0, -10}, {2, -10}, {2, 80}, {0, 80}}, {0, 0, 0, 0}), {60, 40}, {60, 0});    // through
    cut(billet, roundedPolygon({{0, -10}, {80, -10}, {80, 80}, {0, 80}}, {0, 0, 0, 0}), {62, 60}, {62, 0});  // the rest
    const BilletHull hull(billet);
    const BodyShape probe({boxPiece({0, -1, -1}, {1, 1, 1})});
    EXPECT_NEAR(hull.nearness(probe, Placing::at({65, 0})).gap, 5, hull.errorMm() + kNearnessMm);
    const Outline outline = roundedPolygon({{0, 0}, {1, 0}, {1, 1}, {0, 1}}, {0, 0, 0, 0});
    EXPECT_NEAR(nearnessInPlane(billet, outline, Placing::at({65, -0.5})).gap, 5, 0.002);
    // All of it gone.
    cut(billet, roundedPolygon({{0, -10}, {200, -10}, {200, 80}, {0, 80}}, {0, 0, 0, 0}), {-5, 60}, {-5, 0});
    EXPECT_EQ(BilletHull(billet).nearness(probe, Placing::at({65, 0})).gap, kInf);
    EXPECT_EQ(nearnessInPlane(billet, outline, Placing::at({65, 0})).gap, kInf);
}

TEST(BilletNearness, BoresAndUndercutsAreOpenInThePlane) {
    Stock tube = bar();
    tube.boreRadius = 15;
    Billet billet(tube);
    const Outline barTip = roundedPolygon({{0, -4}, {40, -4}, {40, 4}, {0, 4}}, {0, 0, 0, 0});  // a boring bar of 8 mm
    struct Row {
        Point at;
        double gap;
    };
    // In the middle, off to each side, behind the end, and in the wall.
    for (const Row& row : std::vector<Row>{{{20, 0}, 11},
                                           {{20, 9}, 2},
                                           {{20, -9}, 2},
                                           {{103, 0}, std::hypot(3, 11)},
                                           {{20, 20}, 0},
                                           {{20, -13}, 0}}) {
        const double told = nearnessInPlane(billet, barTip, Placing::at(row.at)).gap;
        EXPECT_LE(told, row.gap);
        EXPECT_GE(told, row.gap - billet.grid().pitch - kNearnessMm);
    }
    // A face groove from the front: metal inside it, gap, metal outside it.
    cut(billet, roundedPolygon({{0, 20}, {200, 20}, {200, 24}, {0, 24}}, {0, 0, 0, 0}), {101, 0}, {90, 0});
    const Outline probe = roundedPolygon({{0, 0}, {20, 0}, {20, 1}, {0, 1}}, {0, 0, 0, 0});
    EXPECT_NEAR(nearnessInPlane(billet, probe, Placing::at({92, 21})).gap, 1, 0.002 + kNearnessMm);
    EXPECT_NEAR(nearnessInPlane(billet, probe, Placing::at({92, 21.5})).gap, 1.5, 0.002 + kNearnessMm);
    EXPECT_NEAR(nearnessInPlane(billet, probe, Placing::at({92, -22.5})).gap, 1.5, 0.002 + kNearnessMm);
    EXPECT_NEAR(nearnessInPlane(billet, probe, Placing::at({90.5, 21.5})).gap, 0.5, 0.002 + kNearnessMm);
    EXPECT_EQ(nearnessInPlane(billet, probe, Placing::at({89, 21.5})).gap, 0);
    EXPECT_EQ(nearnessInPlane(billet, probe, Placing::at({92, 23.5})).gap, 0);
}

}  // namespace
}  // namespace firstoff
