// Measures of contours with arcs against what is known of circles and their parts.
#include "sim/base/contour_geometry.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {
namespace {

const Contour kCircle = {{{15, 3}, 1}, {{5, 3}, 1}};  // radius 5 about (10, 3), anticlockwise

TEST(ContourGeometry, AHalfCircleHasItsCentreHalfWay) {
    const auto arc = arcOf({15, 3}, {5, 3}, 1);
    ASSERT_TRUE(arc);
    EXPECT_EQ(arc->centre, (Point{10, 3}));
    EXPECT_EQ(arc->radius, 5);
    EXPECT_NEAR(arc->turn, kPi, 1e-15);
    EXPECT_FALSE(arcOf({0, 0}, {10, 0}, 0));
}

TEST(ContourGeometry, ACircleHasItsAreaItsBoxAndItsFarthestPoint) {
    EXPECT_NEAR(areaOf(kCircle), 25 * kPi, 1e-12);
    const Box box = boundingBox({kCircle});
    EXPECT_NEAR(box.zMin, 5, 1e-14);
    EXPECT_NEAR(box.zMax, 15, 1e-14);
    EXPECT_NEAR(box.rMin, -2, 1e-14);
    EXPECT_NEAR(box.rMax, 8, 1e-14);
    EXPECT_NEAR(farthestFromOrigin({kCircle}), std::hypot(10, 3) + 5, 1e-13);
}

// Circular segment, R^2 (theta - sin theta) / 2, over a chord.
TEST(ContourGeometry, AnArcAddsItsSegment) {
    for (double degrees : {10.0, 90.0, 180.0, 270.0, 350.0}) {
        const double turn = radians(degrees);
        const double radius = 7;
        const Contour segment = {{{radius, 0}, bulgeOf(turn)}, {{radius * std::cos(turn), radius * std::sin(turn)}, 0}};
        EXPECT_NEAR(areaOf(segment), radius * radius * (turn - std::sin(turn)) / 2, 1e-12) << degrees;
        Contour clockwise = {{segment[1].at, -segment[0].bulge}, {segment[0].at, 0}};
        EXPECT_NEAR(areaOf(clockwise), -areaOf(segment), 1e-12) << degrees;
    }
}

TEST(ContourGeometry, AQuarterReachesOnlyItsOwnEnds) {
    const Box box = edgeBox({5, 0}, {0, 5}, bulgeOf(kPi / 2));
    EXPECT_NEAR(box.zMin, 0, 1e-14);
    EXPECT_NEAR(box.zMax, 5, 1e-14);
    EXPECT_NEAR(box.rMin, 0, 1e-14);
    EXPECT_NEAR(box.rMax, 5, 1e-14);
}

RC_GTEST_PROP(ContourGeometry, TurnedRoundTwiceIsTheSameShape, ()) {
    Contour contour;
    const int corners = *rc::gen::inRange(2, 8);
    for (int i = 0; i < corners; ++i) {
        contour.push_back(
            {{*rc::gen::inRange(-64, 64) / 4.0, *rc::gen::inRange(0, 64) / 4.0}, *rc::gen::inRange(-8, 8) / 4.0});
    }
    // Quarters of a millimetre about a whole one mirror without rounding.
    const Contour once = mirroredInZ(contour, 3);
    RC_ASSERT(std::abs(areaOf(once) - areaOf(contour)) < 1e-9);
    RC_ASSERT(std::abs(boundingBox({once}).zMax - (3 - boundingBox({contour}).zMin)) < 1e-9);
    RC_ASSERT(std::abs(boundingBox({once}).rMax - boundingBox({contour}).rMax) < 1e-9);
    Contour twice = mirroredInZ(once, 3);
    for (std::size_t i = 0; i < contour.size() && twice != contour; ++i) {
        std::rotate(twice.begin(), twice.begin() + 1, twice.end());
    }
    RC_ASSERT(twice == contour);
}

}  // namespace
}  // namespace firstoff
