// Gaps that are known without any program: of spheres, cylinders, boxes and cones, standing, sweeping and swinging.
// Sources: elementary geometry, worked out beside each row.
#include "sim/clearance/nearness.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <thread>
#include <vector>

#include "sim/base/units.h"
#include "tests/support/exact_distance.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

// Half-section of a sphere about the origin, corners on it: nowhere further inside than radius (1 - cos(pi / 2 parts)).
constexpr int kParts = 400;
ConvexPiece sphere(double radius) {
    std::vector<Point> half;
    for (int i = 0; i <= kParts; ++i) {
        const double at = kPi * i / kParts;
        half.push_back({radius * std::cos(at), radius * std::sin(at)});
    }
    return turnedPiece(half);
}
double sphereFlat(double radius) {
    return radius * (1 - std::cos(kPi / kParts / 2));
}

double gapOf(const ConvexPiece& first, const Placing& at, const ConvexPiece& second) {
    return nearness(BodyShape({first}), at, BodyShape({second}), Placing{}).gap;
}
// Told gaps are never above the true one.
void expectGap(double told, double truth, double further = 0) {
    EXPECT_LE(told, truth);
    EXPECT_GE(told, truth - kNearnessMm - further);
}

TEST(Nearness, OfStandingPairs) {
    const ConvexPiece box = boxPiece({0, 0, 0}, {10, 10, 10});
    struct Row {
        const char* what;
        ConvexPiece first;
        Point at;
        ConvexPiece second;
        double gap;
    };
    const std::vector<Row> rows = {
        {"face to face", box, {13, 5}, box, 3},
        {"edge to edge", box, {13, 14}, box, 5},
        {"corner to corner", boxPiece({0, 0, 0}, {1, 1, 1}), {12, 13}, boxPiece({0, 0, -20}, {10, 10, -6}), 7},
        {"touching", box, {10, 3}, box, 0},
        {"one inside the other", boxPiece({4, 4, 4}, {5, 5, 5}), {0, 0}, box, 0},
        {"coaxial cylinders, ends", cylinderPiece(0, 10, 20), {14, 0}, cylinderPiece(0, 10, 5), 4},
        {"parallel cylinders", cylinderPiece(0, 10, 20), {0, 31}, cylinderPiece(2, 4, 5), 6},
        {"cylinders apart both ways", cylinderPiece(0, 10, 20), {14, 28}, cylinderPiece(0, 10, 5), 5},
        {"box beside a cylinder", box, {-3, 12}, cylinderPiece(-100, 100, 5), 7},
        // The point of the cone looks at the side of the cylinder.
        {"point of a cone", turnedPiece({{0, 0}, {10, 10}}), {20, 0}, cylinderPiece(0, 15, 30), 5},
        {"point of a cone on a face", turnedPiece({{0, 0}, {40, 40}}), {0, 0}, cylinderPiece(-30, 0, 10), 0},
        // Its flank runs through (z, z); the rim of the cylinder stands at (5, 10), 5 / sqrt(2) off it.
        {"rim beside a hollow cone", turnedPiece({{0, 0}, {40, 40}}), {10, 0}, cylinderPiece(-30, 5, 3), 5},
        {"flat against flat, no thickness", boxPiece({0, 0, 0}, {0, 10, 10}), {-2, 0}, box, 2},
        {"a needle", boxPiece({0, 0, 0}, {1000, 0, 0}), {-500, 12}, box, 2},
        {"two points", boxPiece({1, 1, 1}, {1, 1, 1}), {0, 0}, boxPiece({4, 5, 1}, {4, 5, 1}), 5},
        {"the same point", boxPiece({1, 1, 1}, {1, 1, 1}), {0, 0}, boxPiece({1, 1, 1}, {1, 1, 1}), 0},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.what);
        expectGap(gapOf(row.first, Placing::at(row.at), row.second), row.gap);
        expectGap(gapOf(row.second, Placing::at(-row.at), row.first), row.gap);
    }
}

TEST(Nearness, OfSpheres) {
    for (double apart : {30.0, 30.01, 31.0, 45.0, 400.0}) {
        SCOPED_TRACE(apart);
        // In the direction (0.6, 0.8) of the plane. Corners of the sections lie on the spheres, so gaps may be larger
        // by the depth of the flats.
        const double gap = gapOf(sphere(10), Placing::at({0.6 * apart, 0.8 * apart}), sphere(20));
        EXPECT_LE(gap, apart - 30 + sphereFlat(10) + sphereFlat(20));
        EXPECT_GE(gap, apart - 30 - kNearnessMm);
    }
}

TEST(Nearness, OfSweeps) {
    const ConvexPiece box = boxPiece({0, 0, 0}, {10, 10, 10});
    // A long way over the corner of a box at 45 degrees: the corner (10, 10) from the line z + r = 30 that the corner
    // (0, 0) of the other draws.
    expectGap(gapOf(box, Placing::along({-70, 100}, {100, -70}), box), 10 / std::sqrt(2));
    // Both its ends are far off, and it goes right through.
    expectGap(gapOf(box, Placing::along({-500, 3}, {700, 2}), box), 0);
    // Four shifts fill the square between them.
    Placing square = Placing::at({50, 50});
    square.count = 4;
    square.shifts = {Point{50, 50}, Point{90, 50}, Point{90, 90}, Point{50, 90}};
    expectGap(gapOf(boxPiece({0, 0, 0}, {1, 1, 1}), square, boxPiece({70, 70, 4}, {71, 71, 5})), 3);
}

TEST(Nearness, OfWhatTurns) {
    // A bar of 10 x 10 that points from an axis at r = 100 straight down, 60 long, against a block to the side of it:
    // turned a quarter it points at it.
    const ConvexPiece bar = boxPiece({0, 40, -5}, {10, 100, 5});
    const ConvexPiece block = boxPiece({0, 95, 70}, {10, 105, 80});
    Placing at;
    at.axisR = 100;
    at.turn = kPi / 2;  // r towards y: what pointed to -r points to -y
    expectGap(gapOf(bar, at, block), 70.0);
    at.turn = -kPi / 2;
    expectGap(gapOf(bar, at, block), 10.0);
    // A disc about the axis of the turn stays where it is.
    const ConvexPiece disc = cylinderPiece(0, 10, 30, 100);
    for (double turn : {0.0, 0.3, 2.0, -7.0}) {
        at.turn = turn;
        expectGap(gapOf(disc, at, block), std::hypot(70.0 - 30, 0.0));
    }
}

TEST(Nearness, OfNothingIsInfinite) {
    const BodyShape box({boxPiece({0, 0, 0}, {1, 1, 1})});
    EXPECT_EQ(nearness(BodyShape{}, {}, box, {}).gap, kInf);
    EXPECT_EQ(nearness(box, {}, BodyShape{}, {}).gap, kInf);
    EXPECT_EQ(nearnessOfSwing(BodyShape{}, {}, 1, box, {}).nearest.gap, kInf);
}

TEST(Nearness, OfASwing) {
    // A cutter bar reaches 60 from the axis at r = 100, 10 wide: its far corners draw a circle of sqrt(60² + 5²).
    const BodyShape bar({boxPiece({0, 40, -5}, {10, 100, 5})});
    const double reach = std::hypot(60.0, 5.0);
    Placing at;
    at.axisR = 100;
    struct Row {
        double y, to, gap, fraction;
    };
    // The block's near face stands at y to the side of the axis; pointing to -r, the bar swings by positive turns to
    // -y.
    for (const Row& row : std::vector<Row>{
             {70, -kPi, 70 - reach, -1},
             {61, -kPi, 61 - reach, -1},
             {80, -2 * kPi, 80 - reach, -1},
             // Contact when the leading corner, asin(5 / reach) ahead, has risen to y: sin(turn + ahead) = y / reach.
             {50, -kPi, 0, (std::asin(50 / reach) - std::asin(5 / reach)) / kPi},
             {10, -kPi / 2, 0, (std::asin(10 / reach) - std::asin(5 / reach)) / (kPi / 2)},
             // The other way round it comes from behind.
             {50, 2 * kPi, 0, (kPi + std::asin(50 / reach) - std::asin(5 / reach)) / (2 * kPi)}}) {
        SCOPED_TRACE(row.y);
        const BodyShape block({boxPiece({0, -500, row.y}, {10, 500, row.y + 5})});
        const SwingNearness n = nearnessOfSwing(bar, at, row.to, block, Placing{});
        EXPECT_LE(n.nearest.gap, row.gap);
        EXPECT_GE(n.nearest.gap, row.gap - 0.01);
        if (row.fraction >= 0) {
            const double travel = reach * std::abs(row.to);
            EXPECT_LE(n.fraction, row.fraction + 1e-12);          // never late
            EXPECT_GE(n.fraction, row.fraction - 0.01 / travel);  // nor early by more than 0.01 mm
        }
    }
}

TEST(Nearness, ABarThatSwingsRoundItsOwnDiscNeedsNoSteps) {
    const BodyShape disc({cylinderPiece(0, 10, 30, 100)}), block({boxPiece({0, 95, 70}, {10, 105, 80})});
    Placing at;
    at.axisR = 100;
    const SwingNearness n = nearnessOfSwing(disc, at, 40 * kPi, block, Placing{});
    EXPECT_NEAR(n.nearest.gap, 40, 2 * kNearnessMm);
}

TEST(Nearness, PointsLieWhereBodiesAreNearest) {
    const BodyShape box({boxPiece({0, 0, -5}, {10, 10, 5})}), bar({cylinderPiece(-100, 100, 20)});
    const Nearness n = nearness(box, Placing::at({30, 24}), bar, Placing{});
    EXPECT_NEAR(n.onFirst.r, 24, 1e-3);
    EXPECT_NEAR(n.onSecond.r, 20, 1e-3);
    // Nearest along a line; both points lie on it.
    EXPECT_NEAR(n.onSecond.y, 0, 0.1);
    EXPECT_NEAR(n.onFirst.z, n.onSecond.z, 1e-3);
}

TEST(Nearness, BeyondWhatIsAskedForItIsNoLessThanThat) {
    const ConvexPiece box = boxPiece({0, 0, 0}, {10, 10, 10});
    const BodyShape first({box}), second({box, boxPiece({300, 0, 0}, {310, 10, 10})});
    for (double apart : {11.0, 15.0, 20.0, 100.0}) {
        for (double beyond : {0.0, 0.5, 5.0, 9.99, 1000.0}) {
            SCOPED_TRACE(testing::Message() << apart << " " << beyond);
            const double truth = apart - 10;
            const double told = nearness(first, Placing::at({apart, 0}), second, {}, beyond).gap;
            EXPECT_LE(told, truth);
            EXPECT_GE(told, std::min(truth - kNearnessMm, beyond));
        }
    }
}

TEST(Nearness, AskedForContactOnlyItTellsTouchingFromOverlappingBoxes) {
    // Two bars cross diagonally in front of each other: the boxes round each body overlap, the bodies do not.
    const BodyShape comb({boxPiece({0, 0, 0}, {10, 10, 10}), boxPiece({30, 30, 0}, {40, 40, 10})});
    const BodyShape other({boxPiece({0, 30, 0}, {10, 40, 10}), boxPiece({30, 0, 0}, {40, 10, 10})});
    EXPECT_GT(nearness(comb, {}, other, {}, 0).gap, 0);
    EXPECT_EQ(nearness(comb, Placing::at({0, 25}), other, {}, 0).gap, 0);
    EXPECT_GT(nearnessOfSwing(comb, {}, 0.01, other, {}, 0).nearest.gap, 0);
}

TEST(Nearness, AHintChangesNothing) {
    std::vector<ConvexPiece> row;
    for (int i = 0; i < 20; ++i) row.push_back(boxPiece({20.0 * i, 0, 0}, {20.0 * i + 10, 10, 10}));
    const BodyShape comb(row), probe({boxPiece({0, 0, 0}, {1, 1, 1})});
    NearnessHint hint;
    for (int i = 0; i < 60; ++i) {
        const Placing at = Placing::at({7.0 * i, 12 + 0.1 * i});
        const double afresh = nearness(probe, at, comb, {}).gap;
        EXPECT_NEAR(nearness(probe, at, comb, {}, kInf, &hint).gap, afresh, kNearnessMm);
    }
}

BodyShape meshOf(const std::vector<SpacePoint>& corners) {
    return BodyShape(shop::hullTriangles(corners), true);
}

TEST(Nearness, WhatIsInsideAMeshTouchesIt) {
    const BodyShape room = meshOf(boxPiece({0, 0, 0}, {100, 100, 100}).corners);
    const BodyShape small({boxPiece({0, 0, 0}, {1, 1, 1})}), smallMesh = meshOf(boxPiece({0, 0, 0}, {1, 1, 1}).corners);
    for (const BodyShape* probe : {&small, &smallMesh}) {
        EXPECT_EQ(nearness(*probe, Placing::at({50, 50}), room, {}).gap, 0);
        EXPECT_EQ(nearness(room, {}, *probe, Placing::at({50, 50})).gap, 0);
        EXPECT_EQ(nearness(*probe, Placing::along({50, 50}, {60, 60}), room, {}, 2).gap, 0);
        EXPECT_NEAR(nearness(*probe, Placing::at({103, 50}), room, {}).gap, 3, kNearnessMm);
        Placing at = Placing::at({50, 50});
        EXPECT_EQ(nearnessOfSwing(*probe, at, 0.3, room, Placing{}).nearest.gap, 0);
    }
}

TEST(Nearness, AHollowOfAMeshIsEmpty) {
    // The inner shell is given inside out, as a mesh file gives it.
    std::vector<ConvexPiece> both = shop::hullTriangles(boxPiece({0, 0, 0}, {100, 100, 100}).corners);
    for (ConvexPiece triangle : shop::hullTriangles(boxPiece({20, 20, 20}, {80, 80, 80}).corners)) {
        std::swap(triangle.corners[0], triangle.corners[1]);
        both.push_back(triangle);
    }
    const BodyShape hollow(both, true), small({boxPiece({0, 0, 45}, {1, 1, 46})});
    // Nearest across: 45 from 20.
    EXPECT_NEAR(nearness(small, Placing::at({50, 50}), hollow, {}).gap, 25, kNearnessMm);
    EXPECT_EQ(nearness(small, Placing::at({10, 50}), hollow, {}).gap, 0);
}

TEST(Nearness, ShellsOfAMeshThatOverlapAreSolidThere) {
    std::vector<ConvexPiece> both = shop::hullTriangles(boxPiece({0, 0, 0}, {100, 100, 100}).corners);
    for (const ConvexPiece& t : shop::hullTriangles(boxPiece({20, 20, 20}, {180, 80, 80}).corners)) both.push_back(t);
    const BodyShape crossed(both, true), small({boxPiece({0, 0, 45}, {1, 1, 46})});
    EXPECT_EQ(nearness(small, Placing::at({50, 50}), crossed, {}).gap, 0);
    EXPECT_EQ(nearness(small, Placing::at({150, 50}), crossed, {}).gap, 0);
}

TEST(Nearness, PointsAreInsideAMeshedSphereOrNot) {
    // Corners on a sphere of 20; between them the flats lie inside it by up to 0.05 (40 parts of half a turn).
    std::vector<SpacePoint> corners;
    for (int i = 1; i < 40; ++i) {
        for (int k = 0; k < 80; ++k) {
            const double at = kPi * i / 40, round = kPi * k / 40;
            corners.push_back(
                {20 * std::cos(at), 20 * std::sin(at) * std::cos(round), 20 * std::sin(at) * std::sin(round)});
        }
    }
    corners.push_back({20, 0, 0});
    corners.push_back({-20, 0, 0});
    const BodyShape ball = meshOf(corners);
    const double flat = 20 * (1 - std::pow(std::cos(kPi / 80), 2));
    shop::Dice dice(11);
    for (int i = 0; i < 2000; ++i) {
        // Every other one on a plane or an axis of the mesh, where rays meet edges.
        SpacePoint p{dice.between(-22, 22), dice.between(-22, 22), dice.between(-22, 22)};
        if (i % 4 == 1) p.y = 0;
        if (i % 4 == 3) p.y = p.r = 0;
        const double out = length(p) - 20;
        const double told = nearness(BodyShape({boxPiece(p, p)}), {}, ball, {}).gap;
        SCOPED_TRACE(i);
        if (out < -flat) {
            EXPECT_EQ(told, 0);
        }
        if (out > 0) {
            EXPECT_GE(told, out - kNearnessMm);
            EXPECT_LE(told, out + flat);
        }
    }
}

TEST(Nearness, TheSameMeshIsMadeReadyOnce) {
    const std::vector<ConvexPiece> triangles = shop::hullTriangles(boxPiece({0, 0, 0}, {31, 41, 59}).corners);
    std::vector<ConvexPiece> other = triangles;
    other[3].corners[1].z += 1e-12;
    std::vector<BodyShape> shapes(8);
    std::vector<std::thread> workers;
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        workers.emplace_back([&, i] { shapes[i] = BodyShape(i % 2 == 0 ? triangles : other, true); });
    }
    for (std::thread& worker : workers) worker.join();
    const BodyShape again(triangles, true), otherAgain(other, true);
    EXPECT_EQ(&again.data(), &BodyShape(triangles, true).data());
    EXPECT_NE(&again.data(), &otherAgain.data());
    for (const BodyShape& shape : shapes) EXPECT_EQ(nearness(shape, Placing::at({33, 0}), again, {}).gap > 1.99, true);
}

TEST(Nearness, TheSizeOfAShapeIsThatOfItsPieces) {
    const BodyShape shape({boxPiece({0, 0, -1}, {10, 3, 1}), cylinderPiece(-5, 0, 7, 20, 4)});
    EXPECT_EQ(shape.box().min, (SpacePoint{-5, 0, -3}));
    EXPECT_EQ(shape.box().max, (SpacePoint{10, 27, 11}));
    EXPECT_DOUBLE_EQ(shape.reach(0), std::hypot(20, 4) + 7);
    EXPECT_DOUBLE_EQ(shape.reach(20), std::hypot(20, 1));
}

}  // namespace
}  // namespace firstoff
