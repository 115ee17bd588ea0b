// One amount for each entry of the offset page.
#include "sim/inspection/suited_correction.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "sim/inspection/correction_words.h"

namespace firstoff {
namespace {

using State = GaugedDimension::State;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

constexpr double kRounding = 1e-9;

GaugedDimension sized(const std::string& name, double least, double most, double smallest, double largest,
                      std::vector<OffsetMove> moves) {
    GaugedDimension d;
    d.name = name;
    d.limited = true;
    d.least = least;
    d.most = most;
    d.smallest.size = smallest;
    d.largest.size = largest;
    const bool low = std::abs(smallest - d.middle()) > std::abs(largest - d.middle());
    d.measured = low ? smallest : largest;
    d.state = stateOf(d, d.measured);
    d.moves = std::move(moves);
    return d;
}

// Limits of tests/reference/tolerances.csv: 24 h7 0/-0.021, 30 h6 0/-0.013.
TEST(SuitedCorrection, MeetsAllDimensionsOfAnOffset) {
    const std::vector<GaugedDimension> all = {sized("Ø24 h7", 23.979, 24, 24.012, 24.012, {{3, true, 1}}),
                                              sized("Ø30 h6", 29.987, 30, 30.006, 30.006, {{3, true, 1}})};
    const auto told = correctionsThatSuit(all);
    ASSERT_THAT(told, SizeIs(1));
    const OffsetCorrection& c = told[0];
    EXPECT_TRUE(c.possible);
    // Ø24 wants -0.033 to -0.012, Ø30 -0.019 to -0.006; both -0.019 to -0.012. The middles are -0.0225 and -0.0125:
    // |x + 0.0225| / 0.0105 = |x + 0.0125| / 0.0065 at -0.01632.
    EXPECT_NEAR(c.leastMm, -0.019, 2e-6);
    EXPECT_NEAR(c.mostMm, -0.012, 2e-6);
    EXPECT_NEAR(c.amountMm, -0.016, kRounding);
    GaugedPart part;
    part.dimensions = all;
    part.corrections = told;
    EXPECT_EQ(correctionInWords(part, c),
              "Put -0.016 in X of offset 3, added to what stands there: No. 1 and 2 are then "
              "within their limits (-0.019 to -0.012 does it).");
    EXPECT_EQ(correctionInWords(part, all[0]),
              "Put -0.016 in X of offset 3, added to what stands there: that suits all 2 "
              "dimensions that hang on it.");
}

TEST(SuitedCorrection, SaysWhatCannotBeMet) {
    GaugedPart part;
    part.dimensions = {sized("Ø24 h7", 23.979, 24, 24.012, 24.012, {{3, true, 1}}),
                       sized("Ø30 h6", 29.987, 30, 29.985, 29.985, {{3, true, 1}}),
                       sized("Ø40", 39.9, 40.1, 40, 40, {{3, true, 1}})};
    part.corrections = correctionsThatSuit(part.dimensions);
    ASSERT_THAT(part.corrections, SizeIs(1));
    EXPECT_FALSE(part.corrections[0].possible);
    EXPECT_EQ(part.corrections[0].amountMm, 0);
    EXPECT_EQ(correctionInWords(part, part.corrections[0]),
              "Offset 3 cannot meet all its dimensions in X: Ø24 h7 wants -0.033 to -0.012, Ø30 h6 wants +0.002 to "
              "+0.015. Correct the program.");
}

TEST(SuitedCorrection, SaysWhereOneDimensionVariesMoreThanItsLimits) {
    GaugedPart part;
    part.dimensions = {sized("Ø24 h7", 23.979, 24, 23.98, 24.012, {{3, true, 1}})};
    part.corrections = correctionsThatSuit(part.dimensions);
    ASSERT_THAT(part.corrections, SizeIs(1));
    EXPECT_EQ(
        correctionInWords(part, part.corrections[0]),
        "Offset 3 cannot meet its dimension in X: Ø24 h7 differs by 0.032 mm along its surface, and its limits are "
        "0.021 mm apart. Correct the program.");
}

TEST(SuitedCorrection, IsNothingWhereNothingIsToBeDone) {
    EXPECT_THAT(correctionsThatSuit(
                    {sized("a", 9.9, 10.1, 10.0002, 10.0002, {{1, true, 1}}), sized("b", 9.9, 10.1, 10.5, 10.5, {})}),
                IsEmpty());
}

// Faces by three tools: 0 by offset 1, -43 by 3, -54 by 5. What moves the shoulder moves the second length as well.
TEST(SuitedCorrection, FollowsChainsOfLengths) {
    const auto told =
        correctionsThatSuit({sized("length 11", 10.98, 11.02, 11.03, 11.03, {{5, false, -1}, {3, false, 1}}),
                             sized("length 43", 42.98, 43.02, 42.95, 42.95, {{3, false, -1}, {1, false, 1}})});
    ASSERT_THAT(told, SizeIs(2));
    EXPECT_EQ(told[0].offset, 3);
    EXPECT_NEAR(told[0].amountMm, -0.05, kRounding);  // the shoulder 0.05 nearer to the chuck
    EXPECT_THAT(told[0].alsoMoves, ElementsAre(0));
    EXPECT_EQ(told[1].offset, 5);
    EXPECT_NEAR(told[1].amountMm, -0.02, kRounding);  // 0.03 longer, of which the shoulder takes 0.05 too much
}

// Whatever the sizes: what is told brings all within, and where nothing is told possible no step of the page does.
RC_GTEST_PROP(SuitedCorrection, IsRightOrThereIsNone, ()) {
    std::vector<GaugedDimension> all;
    const int count = *rc::gen::inRange(1, 5);
    for (int i = 0; i < count; ++i) {
        const double off = *rc::gen::inRange(-400, 400) / 1e4, spread = *rc::gen::inRange(0, 60) / 1e4;
        const double half = *rc::gen::inRange(20, 300) / 1e4, sense = *rc::gen::element(-1, 1);
        all.push_back(sized("d", 20 - half, 20 + half, 20 + off, 20 + off + spread, {{2, true, sense}}));
    }
    const auto suits = [&](double x) {
        for (const GaugedDimension& d : all) {
            const double move = d.moves[0].perMm * x;
            // 1e-6 is what gauging lets pass.
            if (d.smallest.size + move < d.least - 1.1e-6 || d.largest.size + move > d.most + 1.1e-6) return false;
        }
        return true;
    };
    const auto told = correctionsThatSuit(all);
    if (told.empty()) {
        RC_ASSERT(suits(0));
    } else if (told[0].possible) {
        RC_ASSERT(suits(told[0].amountMm));
    } else {
        for (int step = -200; step <= 200; ++step) {
            bool strictly = true;
            for (const GaugedDimension& d : all) {
                const double move = d.moves[0].perMm * step / 1e3;
                strictly &= d.smallest.size + move >= d.least && d.largest.size + move <= d.most;
            }
            RC_ASSERT(!strictly);
        }
    }
}

}  // namespace
}  // namespace firstoff
