#include "sim/trial/comparison.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/output/comparison_report.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using shop::run;

using shop::kStep;

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    const std::size_t at = text.find(what);
    EXPECT_NE(at, std::string::npos);
    return text.replace(at, what.size(), by);
}

TEST(Comparison, TheSameTwiceDiffersInNothing) {
    const auto trial = run(kStep, shop::stepSetup());
    const Comparison c = compareTrials(*trial, *run(kStep, shop::stepSetup()));
    EXPECT_THAT(c.surfaces, testing::IsEmpty());
    EXPECT_THAT(c.findings, testing::IsEmpty());
    EXPECT_EQ(c.cycleBeforeS, c.cycleAfterS);
    EXPECT_EQ(c.removedBeforeMm3, c.removedAfterMm3);
    EXPECT_TRUE(c.sameBlank);
}

TEST(Comparison, ASmallerDiameterIsToldWithItsLineAndAmount) {
    const auto after = run(replaced(kStep, "X36.", "X35.9"), shop::stepSetup());
    const Comparison c = compareTrials(*run(kStep, shop::stepSetup()), *after);
    ASSERT_FALSE(c.surfaces.empty());
    const SurfaceChange& turned = c.surfaces.front();
    EXPECT_EQ(turned.side, SurfaceChange::Side::Outside);
    EXPECT_NEAR(turned.amountMm, -0.05, 1e-9);  // a radius
    EXPECT_EQ(turned.block, 4u);
    EXPECT_FALSE(turned.isFace);
    EXPECT_GT(turned.toZ - turned.fromZ, 19.5);
    EXPECT_GT(c.removedAfterMm3, c.removedBeforeMm3);
    EXPECT_THAT(surfaceChangeInWords(*after, turned), testing::HasSubstr(": 0.1000 mm smaller in diameter (line 5)"));
    EXPECT_THAT(surfaceChangeInWords(*after, turned, {kMmPerInch, "in", 4}),
                testing::HasSubstr(": 0.00394 in smaller in diameter (line 5)"));
}

TEST(Comparison, AShoulderFurtherBackIsAFaceThatMoved) {
    const Comparison c =
        compareTrials(*run(kStep, shop::stepSetup()), *run(replaced(kStep, "Z-20.", "Z-20.3"), shop::stepSetup()));
    ASSERT_EQ(c.surfaces.size(), 1u);
    EXPECT_TRUE(c.surfaces[0].isFace);
    EXPECT_LT(c.surfaces[0].amountMm, 0);
    // Known to the step of the places that are compared.
    EXPECT_NEAR(c.surfaces[0].alongMm, -0.3, 0.01);
    EXPECT_GT(c.cycleAfterS, c.cycleBeforeS);
}

TEST(Comparison, FindingsKeepTheirPartnersWhenLinesAreInserted) {
    const std::string faulty = replaced(kStep, "G01 Z-20. F.2", "G00 Z-20.");
    const auto before = run(faulty, shop::stepSetup());
    const auto after = run("(A REMARK)\n" + faulty, shop::stepSetup());
    ASSERT_FALSE(before->findings.empty());
    EXPECT_THAT(compareTrials(*before, *after).findings, testing::IsEmpty());
    const Comparison mended = compareTrials(*before, *run(kStep, shop::stepSetup()));
    ASSERT_FALSE(mended.findings.empty());
    EXPECT_TRUE(mended.findings.front().gone);
    EXPECT_EQ(mended.findings.front().finding.code, "rapid-into-material");
    const Comparison spoilt = compareTrials(*run(kStep, shop::stepSetup()), *before);
    EXPECT_FALSE(spoilt.findings.front().gone);
}

TEST(Comparison, AnotherBlankIsSaid) {
    firstoff::Setup thicker = shop::stepSetup();
    thicker.stock.outerRadius = 20.5;
    const Comparison c = compareTrials(*run(kStep, shop::stepSetup()), *run(kStep, thicker));
    EXPECT_FALSE(c.sameBlank);
    ASSERT_EQ(c.surfaces.size(), 1u);
    EXPECT_NEAR(c.surfaces[0].amountMm, 0.5, 1e-9);
    EXPECT_EQ(c.surfaces[0].block, kNoBlock);  // no tool has been there
}

}  // namespace
}  // namespace firstoff
