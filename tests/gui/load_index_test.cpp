#include "gui/load_index.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "gui/timeline_index.h"
#include "gui/timeline_records.h"
#include "sim/output/setup_files.h"
#include "tests/support/shop.h"

namespace firstoff::gui {
namespace {

const Trial& spigot() {
    static const auto trial = [] {
        const std::string base = "assets/jobs/coupling-spigot";
        return runTrial(readProgram(shop::readFile(base + ".nc"), "coupling-spigot.nc"),
                        readSetup(shop::readFile(base + ".toml"), "coupling-spigot.toml",
                                  setupFilesBeside(FIRSTOFF_SOURCE_DIR "/" + base + ".toml")));
    }();
    return *trial;
}

float mostOf(const Trial& trial, std::size_t timedMove) {
    float most = 0;
    for (const LoadRun& run : trial.loads.runs) {
        if (run.timedMove != timedMove) continue;
        for (std::uint32_t i = run.first; i < run.first + run.count; ++i)
            most = std::max(most, trial.loads.samples[i].powerKw);
    }
    return most;
}

TEST(LoadIndex, FindsTheGreatestOfAnyRangeOfMoves) {
    const Trial& trial = spigot();
    const LoadIndex index(trial);
    ASSERT_TRUE(index.known());
    ASSERT_TRUE(index.isPower());
    const std::size_t n = trial.timeline.moves.size();
    for (std::size_t first = 0; first < n; first += 3) {
        float most = 0;
        for (std::size_t last = first + 1; last <= n; ++last) {
            most = std::max(most, mostOf(trial, last - 1));
            ASSERT_EQ(index.greatest(first, last), most) << first << " to " << last;
        }
    }
}

TEST(LoadIndex, SaysWhenAMoveIsAtAPartOfItsLength) {
    const Trial& trial = spigot();
    for (std::size_t i = 0; i < trial.timeline.moves.size(); ++i) {
        const TimedMove& timed = trial.timeline.moves[i];
        if (timed.from == timed.to) continue;
        for (const double share : {0.1, 0.5, 0.93}) {
            const double timeS = timeAt(trial, i, share);
            // As near as it stops looking.
            EXPECT_NEAR(fractionAt(timed, trial.toolpath, trial.setup, timeS), share, 1e-5) << i;
        }
    }
}

TEST(LoadRecords, StayInTheWindowAndBelowTheGreatest) {
    const Trial& trial = spigot();
    const TimelineIndex index(trial);
    for (const double zoom : {1.0, 7.0, 60.0}) {
        TimeWindow window;
        window.width = 900;
        window.pxPerSecond = zoom * window.width / trial.timeline.cycleTimeS;
        window.from = zoom > 1 ? 0.4 * trial.timeline.cycleTimeS : 0;
        const std::vector<LoadRecord> records = loadRecords(trial, index, window);
        ASSERT_FALSE(records.empty());
        EXPECT_LE(records.size(), 2000u);  // no more than can be seen, whatever the samples
        for (const LoadRecord& record : records) {
            EXPECT_LE(record.x0, record.x1 + 1e-3f);
            EXPECT_GE(record.x1, -1);
            EXPECT_LE(record.x0, window.width + 1);
            EXPECT_LE(std::max(record.start, record.end), index.load().most() + 1e-6);
        }
    }
}

TEST(LoadAt, TellsNothingWhereNothingIsCut) {
    const Trial& trial = spigot();
    bool cuts = false;
    for (std::size_t i = 0; i < trial.timeline.moves.size(); ++i) {
        const auto load = loadAt(trial, i, 0.5);
        if (trial.timeline.moves[i].kind == MoveKind::Rapid) {
            EXPECT_FALSE(load) << i;
        }
        cuts = cuts || load;
    }
    EXPECT_TRUE(cuts);
}

}  // namespace
}  // namespace firstoff::gui
