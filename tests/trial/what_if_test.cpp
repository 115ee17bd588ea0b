#include "sim/trial/what_if.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using shop::run;

using shop::kStep;

// Outside diameters follow the wear one to one: the sign of an offset page (common practice, no source).
RC_GTEST_PROP(WhatIf, WearMovesTheDiameterByItself, ()) {
    const double x = *rc::gen::inRange(-400, 401) / 1000.0;
    WhatIf whatIf;
    whatIf.wears.push_back({1, x, 0});
    const auto trial = run(kStep, withChanges(shop::stepSetup(), whatIf));
    RC_ASSERT(std::abs(shop::diameterAt(*trial, -10) - (36 + x)) < 1e-9);
}

TEST(WhatIf, WearIsAddedToWhatStandsThere) {
    firstoff::Setup setup = shop::stepSetup();
    Offset entered;
    entered.number = 1;
    entered.wear = {0.02, 0.1};
    setup.offsets.push_back(entered);
    WhatIf whatIf;
    whatIf.wears.push_back({1, -0.05, 0.03});
    const firstoff::Setup changed = withChanges(setup, whatIf);
    ASSERT_EQ(changed.offsets.size(), 1u);
    EXPECT_DOUBLE_EQ(changed.offsets[0].wear.r, 0.075);
    EXPECT_DOUBLE_EQ(changed.offsets[0].wear.z, 0.05);
}

TEST(WhatIf, AnOffsetThatIsNotThereIsPutInOrder) {
    firstoff::Setup setup = shop::stepSetup();
    for (int number : {2, 7}) {
        Offset offset;
        offset.number = number;
        setup.offsets.push_back(offset);
    }
    WhatIf whatIf;
    whatIf.wears.push_back({5, 0.1, 0});
    const firstoff::Setup changed = withChanges(setup, whatIf);
    ASSERT_EQ(changed.offsets.size(), 3u);
    EXPECT_EQ(changed.offsets[1].number, 5);
}

TEST(WhatIf, TheDatumMovesWholeLengths) {
    WhatIf whatIf;
    whatIf.datumZMm = -0.4;
    const firstoff::Setup changed = withChanges(shop::stepSetup(), whatIf);
    EXPECT_DOUBLE_EQ(changed.workOffsets[0].z, shop::stepSetup().workOffsets[0].z - 0.4);
}

TEST(WhatIf, AnotherNoseRadiusLeavesAnotherFillet) {
    WhatIf whatIf;
    whatIf.edges.push_back({1, 0.4, 0});
    const firstoff::Setup changed = withChanges(shop::stepSetup(), whatIf);
    EXPECT_EQ(changed.tools[0].noseRadius, 0.4);
    const auto fine = run(kStep, changed), coarse = run(kStep, shop::stepSetup());
    // In the corner at Z-20 the nose leaves metal up to its radius in front of the shoulder.
    EXPECT_NEAR(shop::diameterAt(*fine, -19.5), 36, 1e-6);
    EXPECT_GT(shop::diameterAt(*coarse, -19.5), 36.05);
}

TEST(WhatIf, EdgesOffCentreAndOverridesAreTaken) {
    WhatIf whatIf;
    EXPECT_TRUE(whatIf.empty());
    whatIf.edges.push_back({1, -1, -0.3});
    whatIf.feed = 0.5;
    EXPECT_FALSE(whatIf.empty());
    firstoff::Setup setup = shop::stepSetup();
    setup.overrides.feed = 0.8;
    const firstoff::Setup changed = withChanges(setup, whatIf);
    EXPECT_DOUBLE_EQ(changed.tools[0].centreHeight, -0.3);
    EXPECT_EQ(changed.tools[0].noseRadius, 0.8);
    EXPECT_DOUBLE_EQ(changed.overrides.feed, 0.4);
}

TEST(WhatIf, ToolsWithoutANoseKeepTheirCorners) {
    firstoff::Setup setup = shop::stepSetup();
    shop::addPartingTool(setup, 2, 3, 0.1);
    WhatIf whatIf;
    whatIf.edges.push_back({2, 0.8, 0});
    EXPECT_EQ(withChanges(setup, whatIf).tools[1].cornerRadius, 0.1);
    EXPECT_FALSE(hasNose(setup.tools[1]));
}

TEST(QuickLook, CutsTheSameSizesAndSaysThatItIsOne) {
    TrialOptions options;
    options.quickLook = true;
    const Program program = readProgram(kStep, "step.nc");
    const auto quick = runTrial(program, shop::stepSetup(), options), whole = runTrial(program, shop::stepSetup());
    EXPECT_TRUE(quick->quickLook);
    EXPECT_FALSE(whole->quickLook);
    EXPECT_EQ(quick->verdict, whole->verdict);
    EXPECT_EQ(quick->removedVolumeMm3, whole->removedVolumeMm3);
    EXPECT_EQ(quick->notChecked.size(), whole->notChecked.size() + 1);
}

}  // namespace
}  // namespace firstoff
