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

// 30 mm at 600 mm/min are 3 s, whatever F says; nothing about the cut is proven by it.
TEST(WhatIf, ADryRunGoesAtItsOwnPace) {
    constexpr const char* kProgram = "G21 G99\nT0101\nG97 S1000 M03\nG00 X70. Z2.\nG01 Z-28. F0.1\nG00 X72.\nM30\n";
    WhatIf whatIf;
    whatIf.dryRunMmPerMin = 600;
    whatIf.dryRunClearMm = 100;
    const auto wet = run(kProgram, shop::stepSetup()), dry = run(kProgram, withChanges(shop::stepSetup(), whatIf));
    EXPECT_NEAR(wet->timeline.feedTimeS, 30 / (0.1 * 1000) * 60, 1e-9);
    EXPECT_NEAR(dry->timeline.feedTimeS, 3, 1e-9);
    EXPECT_NE(dry->verdict, Verdict::Clear);
    EXPECT_DOUBLE_EQ(dry->toolpath.datums.back().z, wet->toolpath.datums.back().z + 100);
}

TEST(WhatIf, SwitchesOfThePanelChangeWhatRuns) {
    constexpr const char* kProgram =
        "G21 G99\nT0101\nG97 S1000 M03\nG00 X70. Z2.\n/G01 Z-8. F0.1\n/3 G01 Z-20. F0.1\nM01\nG00 X72.\nM30\n";
    const auto movesWith = [&](const WhatIf& whatIf) { return run(kProgram, withChanges(shop::stepSetup(), whatIf)); };
    WhatIf skip, skipThree, goOn;
    skip.blockSkipLevels = std::uint16_t{1u << 1};
    skipThree.blockSkipLevels = std::uint16_t{1u << 3};
    goOn.optionalStop = false;
    const auto feeds = [](const std::shared_ptr<const Trial>& trial) {
        return std::count_if(trial->toolpath.moves.begin(), trial->toolpath.moves.end(),
                             [](const Move& m) { return m.kind == MoveKind::Feed; });
    };
    EXPECT_EQ(feeds(movesWith({})), 2);
    EXPECT_EQ(feeds(movesWith(skip)), 1);
    EXPECT_EQ(feeds(movesWith(skipThree)), 1);
    EXPECT_EQ(movesWith({})->toolpath.stops.size(), movesWith(goOn)->toolpath.stops.size() + 1);
    WhatIf both = skip;
    both.datumZMm = 3;
    EXPECT_EQ(both.panel(), skip);
    EXPECT_FALSE(skip.empty());
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
