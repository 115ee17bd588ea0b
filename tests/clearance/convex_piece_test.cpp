// Pieces hold what they are made from, and not more than is said.
#include "sim/clearance/convex_piece.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/base/units.h"

namespace firstoff {
namespace {

double reach(const std::vector<SpacePoint>& corners, SpacePoint d) {
    double most = -1e300;
    for (const SpacePoint& p : corners) most = std::max(most, dot(p, d));
    return most;
}

double reach(const std::vector<Point>& points, Point d) {
    double most = -1e300;
    for (const Point& p : points) most = std::max(most, dot(p, d));
    return most;
}

TEST(ConvexPiece, APrismHoldsItsOutlineAndLittleMore) {
    struct Row {
        const char* what;
        std::vector<Point> corners;
        std::vector<double> radii;
    };
    for (const Row& row :
         std::vector<Row>{{"sharp", {{0, 0}, {10, 0}, {10, 5}, {0, 5}}, {0, 0, 0, 0}},
                          {"rounded", {{0, 0}, {10, 0}, {10, 5}, {0, 5}}, {0.8, 0.4, 0, 2.5}},
                          {"a disc", {{-6, -6}, {6, -6}, {6, 6}, {-6, 6}}, {6, 6, 6, 6}},
                          {"an acute corner", {{0, 0}, {20, 5}, {20, 12}}, {1.2, 0, 0.2}},
                          {"large", {{-300, -300}, {300, -300}, {300, 300}, {-300, 300}}, {300, 300, 300, 300}}}) {
        SCOPED_TRACE(row.what);
        const Outline outline = roundedPolygon(row.corners, row.radii);
        const Point shift{7, -3};
        const ConvexPiece prism = prismPiece(outline, shift, -2, 9);
        constexpr double kChordMm = 1e-5;
        const std::vector<Point> round = polyline(outline, kChordMm);
        for (int k = 0; k < 720; ++k) {
            const Point d{std::cos(k * kPi / 360), std::sin(k * kPi / 360)};
            const double inside = reach(round, d) + dot(shift, d), outside = reach(prism.corners, inSpace(d));
            // A corner where two tangents of an arc meet stands out by that; the polyline's chords lie inside.
            EXPECT_GE(outside, inside - 1e-9);
            EXPECT_LE(outside, inside + kOutsideMm + kChordMm);
        }
        EXPECT_EQ(boundingBox(prism).min.y, -2);
        EXPECT_EQ(boundingBox(prism).max.y, 9);
    }
}

TEST(ConvexPiece, TheBoxRoundATurnedPieceHoldsAllOfIt) {
    const SpaceBox box = boundingBox(turnedPiece({{-1, 2}, {4, 7}, {9, 0}}, 20, -5));
    EXPECT_EQ(box.min, (SpacePoint{-1, 13, -12}));
    EXPECT_EQ(box.max, (SpacePoint{9, 27, 2}));
}

TEST(ConvexPiece, TurningCarriesCornersAndAxes) {
    // A quarter turn about r = 10 carries r towards y: what stands 5 below the axis comes to stand at y = -5.
    const ConvexPiece box = turnedAbout(10, kPi / 2, boxPiece({0, 5, 0}, {1, 10, 0}));
    EXPECT_NEAR(boundingBox(box).min.y, -5, 1e-12);
    EXPECT_NEAR(boundingBox(box).max.y, 0, 1e-12);
    EXPECT_NEAR(boundingBox(box).min.r, 10, 1e-12);
    const ConvexPiece bar = turnedAbout(10, kPi / 2, cylinderPiece(0, 1, 3, 5, 0));
    EXPECT_NEAR(bar.axisR, 10, 1e-12);
    EXPECT_NEAR(bar.axisY, -5, 1e-12);
}

}  // namespace
}  // namespace firstoff
