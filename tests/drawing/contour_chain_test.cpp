// Loose lines and arcs become outlines, or it is said where they do not.
#include "sim/drawing/contour_chain.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "sim/base/contour_geometry.h"
#include "sim/base/units.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

DrawnPath line(Point a, Point b, std::size_t number = 0) {
    return {{{a, 0}, {b, 0}}, false, {}, number};
}

DrawnPath arc(Point a, Point b, double bulge) {
    return {{{a, bulge}, {b, 0}}, false, {}, 0};
}

// A slot 10 long between centres and 4 wide, its edges in any order and sense: 10 * 4 + pi 2^2.
const std::vector<DrawnPath> kSlot = {line({0, 2}, {10, 2}), arc({0, 2}, {0, -2}, 1), line({10, -2}, {0, -2}),
                                      arc({10, 2}, {10, -2}, -1)};

TEST(ContourChain, PutsALooseOutlineTogether) {
    const ChainedContours chained = chainContours(kSlot);
    EXPECT_THAT(chained.faults, IsEmpty());
    ASSERT_THAT(chained.contours, SizeIs(1));
    EXPECT_THAT(chained.contours[0], SizeIs(4));
    EXPECT_NEAR(std::abs(areaOf(chained.contours[0])), 40 + 4 * kPi, 1e-12);
}

TEST(ContourChain, TakesClosedPathsAsTheyAre) {
    const DrawnPath circle{{{{5, 0}, 1}, {{-5, 0}, 1}}, true, {}, 0};
    const DrawnPath round{{{{0, 0}, 0}, {{4, 0}, 0}, {{4, 4}, 0}, {{0, 0.0004}, 0}}, false, {}, 0};
    const ChainedContours chained = chainContours({circle, round});
    EXPECT_THAT(chained.faults, IsEmpty());
    ASSERT_THAT(chained.contours, SizeIs(2));
    EXPECT_EQ(chained.contours[0], circle.corners);
    EXPECT_THAT(chained.contours[1], SizeIs(3));
}

TEST(ContourChain, ClosesGapsOfAMicrometreAndTellsOfWiderOnes) {
    auto slot = kSlot;
    slot[0].corners[1].at.z = 10.0009;
    EXPECT_THAT(chainContours(slot).contours, SizeIs(1));
    slot[0].corners[1].at.z = 10.0011;
    slot[0].line = 17;
    const ChainedContours open = chainContours(slot);
    EXPECT_THAT(open.contours, IsEmpty());
    ASSERT_THAT(open.faults, SizeIs(2));
    EXPECT_EQ(open.faults[0].code, "drawing-open-end");
    EXPECT_EQ(open.faults[0].line, 17u);
    EXPECT_EQ(open.faults[0].place, (Point{10.0011, 2}));
    EXPECT_THAT(open.faults[0].message, HasSubstr("0.0011 mm away"));
    EXPECT_TRUE(open.faults[0].unproven);
}

TEST(ContourChain, ABranchIsAFaultAndItsOutlineIsNotTaken) {
    auto slot = kSlot;
    slot.push_back(line({10, 2}, {10, -2}));
    slot.push_back({{{{20, 0}, 1}, {{15, 0}, 1}}, true, {}, 0});
    const ChainedContours chained = chainContours(slot);
    EXPECT_THAT(chained.contours, SizeIs(1));  // the circle beside it
    ASSERT_THAT(chained.faults, SizeIs(2));
    EXPECT_EQ(chained.faults[0].code, "drawing-branch");
    EXPECT_THAT(chained.faults[0].message, HasSubstr("3 ends meet at x 10.0000 y 2.0000"));
}

TEST(ContourChain, WhatIsDrawnTwiceIsTakenOnce) {
    auto slot = kSlot;
    slot.push_back(line({10, 2}, {0, 2}));
    slot.push_back(arc({0, -2}, {0, 2}, -1));
    const ChainedContours chained = chainContours(slot);
    EXPECT_THAT(chained.contours, SizeIs(1));
    ASSERT_THAT(chained.faults, SizeIs(1));
    EXPECT_EQ(chained.faults[0].code, "drawing-drawn-twice");
    EXPECT_EQ(chained.faults[0].severity, Severity::Note);
    // Two half circles between the same points are a circle, not one half drawn twice.
    EXPECT_THAT(chainContours({arc({0, 0}, {4, 0}, 1), arc({4, 0}, {0, 0}, 1)}).contours, SizeIs(1));
}

// Otherwise the two would take each other away: metal is what lies inside an odd number of outlines.
TEST(ContourChain, OutlinesDrawnTwiceAreTakenOnce) {
    const DrawnPath square{{{{0, 0}, 0}, {{9, 0}, 0}, {{9, 9}, 0}, {{0, 9}, 0}}, true, {}, 0};
    const DrawnPath again{{{{9, 9}, 0}, {{9, 0}, 0}, {{0, 0}, 0}, {{0, 9}, 0}}, true, {}, 30};
    const DrawnPath circle{{{{7, 4}, 1}, {{3, 4}, 1}}, true, {}, 0};
    const DrawnPath turned{{{{5, 6}, -1}, {{5, 2}, -1}}, true, {}, 0};
    const DrawnPath smaller{{{{6.9, 4}, 1}, {{3.1, 4}, 1}}, true, {}, 0};
    const ChainedContours chained = chainContours({square, again, circle, turned, smaller});
    EXPECT_THAT(chained.contours, SizeIs(3));
    ASSERT_THAT(chained.faults, SizeIs(1));
    EXPECT_EQ(chained.faults[0].code, "drawing-drawn-twice");
    EXPECT_EQ(chained.faults[0].line, 30u);
    EXPECT_EQ(chained.contours[0], square.corners);
    EXPECT_EQ(chained.contours[1], circle.corners);
}

TEST(ContourChain, ManyOpenEndsAreCountedNotListed) {
    std::vector<DrawnPath> comb;
    for (int i = 0; i < 5000; ++i) comb.push_back(line({0.1 * i, 0}, {0.1 * i, 5}));
    const ChainedContours chained = chainContours(comb);
    EXPECT_THAT(chained.faults, SizeIs(21));
    EXPECT_THAT(chained.faults.back().message, HasSubstr("9980 more"));
}

// A polygon with bowed sides, cut up, shuffled and turned about, is the same polygon.
RC_GTEST_PROP(ContourChain, AnyOrderAndSenseGiveTheSameOutlines, (unsigned seed)) {
    std::mt19937 rng(seed);
    std::uniform_real_distribution<double> bulge(-0.2, 0.2);
    std::vector<DrawnPath> loose;
    double area = 0;
    for (int shape = 0; shape < 3; ++shape) {
        const int corners = 3 + static_cast<int>(rng() % 20);
        Contour contour;
        for (int i = 0; i < corners; ++i) {
            const double angle = 2 * kPi * i / corners;
            contour.push_back({{100 * shape + 40 * std::cos(angle), 40 * std::sin(angle)}, bulge(rng)});
        }
        area += areaOf(contour);
        for (std::size_t i = 0; i < contour.size(); ++i) {
            const Point a = contour[i].at;
            const Point b = edgeEnd(contour, i);
            const bool turned = rng() % 2 == 0;
            loose.push_back(turned ? arc(b, a, -contour[i].bulge) : arc(a, b, contour[i].bulge));
        }
    }
    std::shuffle(loose.begin(), loose.end(), rng);
    const ChainedContours chained = chainContours(loose);
    RC_ASSERT(chained.faults.empty());
    RC_ASSERT(chained.contours.size() == 3u);
    double found = 0;
    for (const Contour& contour : chained.contours) found += std::abs(areaOf(contour));
    RC_ASSERT(std::abs(found - area) < 1e-8);
}

}  // namespace
}  // namespace firstoff
