#include "gui/sample_index.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "gui/cut_words.h"
#include "gui/load_index.h"
#include "gui/timeline_index.h"
#include "gui/timeline_records.h"
#include "sim/output/setup_files.h"
#include "tests/support/shop.h"

namespace firstoff::gui {
namespace {

constexpr float kUnknown = std::numeric_limits<float>::quiet_NaN();

const Trial& spigot() {
    static const auto trial = [] {
        const std::string base = "assets/jobs/coupling-spigot";
        return runTrial(readProgram(shop::readFile(base + ".nc"), "coupling-spigot.nc"),
                        readSetup(shop::readFile(base + ".toml"), "coupling-spigot.toml",
                                  setupFilesBeside(FIRSTOFF_SOURCE_DIR "/" + base + ".toml")));
    }();
    return *trial;
}

TimeWindow wholeOf(const Trial& trial, double width) {
    TimeWindow window;
    window.width = width;
    window.pxPerSecond = width / trial.timeline.cycleTimeS;
    return window;
}

TEST(SampleIndex, DrawsNothingBesideWhatIsNotKnown) {
    const Trial& trial = spigot();
    const LoadRun& blind = trial.loads.runs[trial.loads.runs.size() / 2];
    const SampleIndex index(
        trial, [&](std::uint32_t i) { return i >= blind.first && i < blind.first + blind.count ? kUnknown : 1.0f; });
    ASSERT_TRUE(index.known());
    EXPECT_EQ(index.most(), 1);
    EXPECT_EQ(index.greatest(blind.timedMove, blind.timedMove + 1), 0);
    // So near that every move stands alone.
    TimeWindow window = wholeOf(trial, 900);
    const TimedMove& timed = trial.timeline.moves[blind.timedMove];
    window.from = timed.t0;
    window.pxPerSecond = window.width / (timed.t1 - timed.t0);
    for (const LoadRecord& record : sampleRecords(trial, index, window)) {
        EXPECT_FALSE(std::isnan(record.start) || std::isnan(record.end));
        EXPECT_TRUE(record.x1 <= 1 || record.x0 >= window.width - 1) << record.x0 << " to " << record.x1;
    }
}

TEST(SampleIndex, IsNotKnownWhereEverythingIsNought) {
    const SampleIndex index(spigot(), [](std::uint32_t) { return 0.0f; });
    EXPECT_FALSE(index.known());
    EXPECT_TRUE(sampleRecords(spigot(), index, wholeOf(spigot(), 900)).empty());
}

// The lane of the grip says what the estimate says: its greatest is that of the cut that asks most.
TEST(GripLane, HasTheCutThatAsksMost) {
    const Trial& trial = spigot();
    ASSERT_TRUE(trial.holding.grip);
    const GripEstimate& grip = *trial.holding.grip;
    const LoadIndex index(trial);
    ASSERT_TRUE(index.grip().known());
    EXPECT_FLOAT_EQ(static_cast<float>(index.grip().most()), static_cast<float>(grip.neededStandingN / grip.standingN));
    const auto there = gripShareAt(trial, grip.timedMove, grip.fraction);
    ASSERT_TRUE(there);
    EXPECT_FLOAT_EQ(*there, static_cast<float>(grip.neededStandingN / grip.standingN));
}

TEST(GripLane, SaysNothingWithoutTheFiguresOfTheChuck) {
    firstoff::Setup setup = shop::barStock(40, 60, 1);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const auto trial = runTrial(
        readProgram("G21 G99\nT0101\nG97 S800 M03\nG00 X36. Z2.\nG01 Z-20. F0.2\nM30\n", "j.nc"), std::move(setup));
    ASSERT_FALSE(trial->loads.runs.empty());
    const LoadIndex index(*trial);
    EXPECT_FALSE(index.grip().known());
    EXPECT_FALSE(index.bending().known());
    EXPECT_FALSE(gripShareAt(*trial, trial->loads.runs[0].timedMove, 0.5));
}

TEST(BendingLane, HasTheGreatestErrorOfAnySample) {
    const Trial& trial = spigot();
    ASSERT_TRUE(trial.bending.known);
    float most = 0;
    for (const BendingSample& sample : trial.bending.samples)
        if (!std::isnan(sample.diameterErrorMm)) most = std::max(most, std::abs(sample.diameterErrorMm));
    EXPECT_EQ(static_cast<float>(LoadIndex(trial).bending().most()), most);
}

TEST(GripWords, TellTheShareAndThatItIsAnEstimate) {
    Trial trial;
    trial.setup.chuck.gripForceN = 40'000;
    const auto words = gripWords(trial, 0.62);
    ASSERT_EQ(words.size(), 3u);
    EXPECT_EQ(words[0], "grip asked for, standing still, safety included: 24.8 kN");
    EXPECT_EQ(words[1], "grip of the set-up 40.0 kN: 62 % of it");
    EXPECT_NE(words[2].find("estimate"), std::string::npos);
}

}  // namespace
}  // namespace firstoff::gui
