// What the window looks up about a trial, each against a plain walk over all moves.
#include "gui/timeline_index.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "gui/instant.h"
#include "gui/session.h"
#include "gui/timeline_records.h"
#include "sim/base/units.h"
#include "tests/support/shop.h"

namespace firstoff::gui {
namespace {

constexpr double kRounding = 1e-9;  // s and turns; sums of a few hundred doubles

// Faces, turns in many short moves, parts the speed in between, calls a second tool, stops in between.
std::string longJob(int moves) {
    std::string text = "G21 G40 G99\nG50 S3000\nT0101\nG96 S200 M03\nG00 X52. Z0.\nG01 X0. F.2\nG00 X48. Z2.\n";
    for (int i = 0; i < moves; ++i) {
        text += "G01 X" + std::to_string(48 - 0.01 * i) + " Z" + std::to_string(2 - 0.1 * i) + "\n";
    }
    return text +
           "G00 X150. Z100.\nM01\nT0303\nG97 S900 M03\nG00 X60. Z-3.\nG01 X50. F.1\nG04 U2.\nG00 X150. "
           "Z100.\nM05\nM30\n";
}

std::shared_ptr<const Trial> tried(const std::string& program) {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addTurningTool(setup, 3, 'D', 0.4, 93);
    return runTrial(readProgram(program, "job.nc"), std::move(setup));
}

class IndexOfALongJob : public testing::Test {
protected:
    std::shared_ptr<const Trial> trial = tried(longJob(300));
    TimelineIndex index{*trial};
    const std::vector<TimedMove>& moves = trial->timeline.moves;
};

TEST_F(IndexOfALongJob, FindsSpeedExtentsAsAWalkOverAllMovesDoes) {
    for (std::size_t first = 0; first < moves.size(); first += 7) {
        for (std::size_t last = first + 1; last <= moves.size(); last += 13) {
            double low = 1e9;
            double high = 0;
            for (std::size_t i = first; i < last; ++i) {
                low = std::min({low, moves[i].rpmStart, moves[i].rpmEnd});
                high = std::max({high, moves[i].rpmStart, moves[i].rpmEnd});
            }
            const auto extent = index.revPerMin(first, last);
            ASSERT_FLOAT_EQ(extent.low, static_cast<float>(low)) << first << " " << last;
            ASSERT_FLOAT_EQ(extent.high, static_cast<float>(high)) << first << " " << last;
        }
    }
}

TEST_F(IndexOfALongJob, SharesOutAllTheTime) {
    double seconds[3] = {};
    for (const TimedMove& move : moves) seconds[static_cast<int>(classOf(move.kind))] += move.t1 - move.t0;
    for (const MotionClass kind : {MotionClass::Cutting, MotionClass::Rapid, MotionClass::Waiting}) {
        EXPECT_NEAR(index.secondsOf(kind, 0, moves.size()), seconds[static_cast<int>(kind)], kRounding);
    }
    EXPECT_NEAR(seconds[0] + seconds[1] + seconds[2], trial->timeline.cycleTimeS, kRounding);
}

TEST_F(IndexOfALongJob, KnowsToolsStopsAndWhenABlockIsDone) {
    ASSERT_EQ(index.toolSpans().size(), 2u + (index.toolSpans().front().station == 0 ? 1u : 0u));
    EXPECT_EQ(index.toolSpans().back().station, 3);
    EXPECT_DOUBLE_EQ(index.toolSpans().back().t1, trial->timeline.cycleTimeS);
    ASSERT_EQ(index.stops().size(), 2u);
    EXPECT_EQ(index.stops()[0].kind, ProgramStop::Kind::Optional);
    EXPECT_EQ(index.stops()[1].kind, ProgramStop::Kind::End);
    const BlockId facing = 5;
    const double done = index.doneAt(facing);
    const TimedMove& last = moves[trial->timeline.at(done - 1e-6)];
    EXPECT_EQ(trial->toolpath.moves[last.move].block, facing);
    EXPECT_NEAR(last.t1, done, kRounding);
    EXPECT_TRUE(std::isnan(index.doneAt(kNoBlock)));
}

// Mean of the ends of each move: exact for constant speed, and the dwell has constant speed.
TEST_F(IndexOfALongJob, CountsTurnsOfTheSpindle) {
    const auto dwell =
        std::find_if(moves.begin(), moves.end(), [](const TimedMove& m) { return m.kind == MoveKind::Dwell; });
    ASSERT_NE(dwell, moves.end());
    const auto at = static_cast<std::size_t>(dwell - moves.begin());
    EXPECT_NEAR(index.turns(at, 1) - index.turns(at, 0), 2.0 * 900 / 60, kRounding);  // 2 s at 900 rev/min
    EXPECT_NEAR(index.turns(at, 0.5) - index.turns(at, 0), 900.0 / 60, kRounding);
}

// ---- what the lanes draw ----

class Lanes : public IndexOfALongJob, public testing::WithParamInterface<double> {
protected:
    // Zoomed in by the parameter, about the middle of the cycle.
    TimeWindow window() const {
        TimeWindow out;
        out.width = 800;
        out.pxPerSecond = 800 / trial->timeline.cycleTimeS * GetParam();
        out.from = 0.5 * trial->timeline.cycleTimeS * (1 - 1 / GetParam());
        return bounded(out, trial->timeline.cycleTimeS);
    }
};

TEST_P(Lanes, AreDrawnInAShortListWithoutGaps) {
    const TimeWindow shown = window();
    const auto records = motionRecords(trial->timeline, index, shown);
    ASSERT_FALSE(records.empty());
    EXPECT_LE(static_cast<double>(records.size()), 2 * shown.width / kFoldPx + 2);
    EXPECT_LE(records.front().x0, 0.01f);
    EXPECT_GE(records.back().x1, shown.width - 0.01f);
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (i > 0) {
            EXPECT_EQ(records[i].first, records[i - 1].last);
        }
        EXPECT_NEAR(records[i].cutting + records[i].rapid + records[i].waiting, records[i].x1 > records[i].x0 ? 1 : 0,
                    1e-5);
        // Only what is too narrow to be seen is folded.
        if (records[i].folded) {
            EXPECT_LE(records[i].x1 - records[i].x0, kFoldPx + 0.01);
        }
    }
}

TEST_P(Lanes, TellTheSpeedWhereItIs) {
    for (const SpindleRecord& record : spindleRecords(trial->timeline, index, window())) {
        EXPECT_LE(record.end, index.maxRevPerMin() + 1e-3);
        if (record.folded) {
            EXPECT_LE(record.start, record.end);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Zoom, Lanes, testing::Values(1, 3, 20, 400));

TEST(TimeWindow, StaysInsideTheCycle) {
    const TimeWindow far = bounded({-50, 1e-6, 800}, 100);
    EXPECT_DOUBLE_EQ(far.from, 0);
    EXPECT_DOUBLE_EQ(far.to(), 100);
    const TimeWindow close = bounded({99.9, 1e12, 800}, 100);
    EXPECT_LE(close.to(), 100 + kRounding);
    EXPECT_EQ(bounded({5, 3, 800}, 0).from, 0);
}

TEST(TimeWindow, TicksAreClockSteps) {
    EXPECT_DOUBLE_EQ(tickStep({0, 100, 800}, 70), 1);
    EXPECT_DOUBLE_EQ(tickStep({0, 10, 800}, 70), 10);
    EXPECT_DOUBLE_EQ(tickStep({0, 1, 800}, 70), 120);
    EXPECT_DOUBLE_EQ(tickStep({0, 0.01, 800}, 70), 7200);
}

// ---- a moment ----

TEST(Instant, TellsDiameterSpeedAndFeedOfTheMomentInAFacingCut) {
    const auto trial = tried("G21 G99\nG50 S3000\nT0101\nG96 S200 M03\nG00 X52. Z0.\nG01 X0. F.2\nM30\n");
    const TimelineIndex index(*trial);
    const double start = trial->startOfBlock(5);
    const Instant first = instantAt(*trial, index, start, kNoStep);
    EXPECT_EQ(first.block, 5u);
    EXPECT_NEAR(2 * first.programmed.r, 52, 1e-6);
    EXPECT_NEAR(first.revPerMin, 1000 * 200 / (kPi * 52), 1e-6);  // n = 1000 vc / (pi D), elementary
    EXPECT_NEAR(first.feedMmPerMin, 0.2 * first.revPerMin, 1e-6);
    const Instant last = instantAt(*trial, index, trial->timeline.cycleTimeS, kNoStep);
    EXPECT_NEAR(last.programmed.r, 0, 1e-6);
}

// A G01 with a huge feed per revolution, as retracts are written: the slide goes no faster than it can.
TEST(Instant, HoldsTheFeedAtTheLimitOfTheMachine) {
    const auto trial = tried("G21 G99\nT0101\nG97 S2000 M03\nG00 X52. Z2.\nG01 X80. F9.\nM30\n");
    const Instant instant = instantAt(*trial, TimelineIndex(*trial), trial->startOfBlock(4), kNoStep);
    const double limit = trial->setup.machine.maxFeedMmPerMin;
    ASSERT_LT(limit, 9 * 2000);
    EXPECT_DOUBLE_EQ(instant.feedMmPerMin, limit);
    EXPECT_DOUBLE_EQ(instant.feedMmPerRev, limit / 2000);
}

TEST(Instant, TellsApartStepsThatTakeNoTime) {
    const auto trial = tried("G21 G99\nG50 S3000\nT0101\nG00 X52. Z0.\nM30\n");
    const TimelineIndex index(*trial);
    EXPECT_EQ(instantAt(*trial, index, 0, 0).block, 0u);
    EXPECT_EQ(instantAt(*trial, index, 0, 1).block, 1u);
    EXPECT_EQ(instantAt(*trial, index, 0, 9999).block, trial->toolpath.steps[trial->stepAt(0)].block);
}

TEST(Instant, ManagesAProgramThatMovesNothing) {
    for (const char* text : {"", "%", "(only words)\n", "M30\n"}) {
        const auto trial = tried(text);
        const TimelineIndex index(*trial);
        const Instant instant = instantAt(*trial, index, 5, kNoStep);
        EXPECT_EQ(instant.timeS, 0) << text;
        EXPECT_NE(instant.modal, nullptr) << text;
        EXPECT_NE(instant.call, nullptr) << text;
    }
}

}  // namespace
}  // namespace firstoff::gui
