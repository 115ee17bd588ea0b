// Threads as cycles: the infeed law and the moves, against published tables and against their mirror images.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "sim/base/units.h"
#include "sim/control/threading_cycle.h"
#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

ThreadingCycle thread(double depth, double firstDepth, double leastDepth = 0, double allowance = 0,
                      int finishPasses = 1) {
    ThreadingCycle cycle;
    cycle.last.start = {6, 14};
    cycle.last.end = {-20, 10 - depth};
    cycle.last.lead = 1.5;
    cycle.last.pullOut = 1.5;
    cycle.depth = depth;
    cycle.firstDepth = firstDepth;
    cycle.leastDepth = leastDepth;
    cycle.allowance = allowance;
    cycle.finishPasses = finishPasses;
    return cycle;
}

// Rows of equal area of thread_infeed.csv. Its catalogue rows are tables by the insert's maker that follow no law, its
// rows by the makers' formula spread the passes from the last one back (with a factor 0.3 for the first): not these
// cycles' law, so they are not held against it.
TEST(ThreadInfeed, EqualAreaRowsOfThePublishedTableComeOut) {
    std::vector<double> published, exact;
    for (const shop::ReferenceRow& row : shop::referenceRows("thread_infeed.csv")) {
        if (row.text("kind") != "equal area infeed") continue;
        published.push_back(*row.number("cumulative_mm"));
        exact.push_back(*row.number("recomputed_cumulative_mm"));
    }
    ASSERT_EQ(published.size(), 6u);
    const std::vector<double> depths = infeedDepths(thread(0.92, 0.92 / std::sqrt(6.0), 0, 0, 0));
    ASSERT_EQ(depths.size(), 6u);
    for (std::size_t i = 0; i < depths.size(); ++i) {
        EXPECT_NEAR(depths[i], published[i], 0.00051) << "printed with three decimals";
        EXPECT_NEAR(depths[i], exact[i], 0.000051) << "recomputed with four";
    }
}

// TC076: height 1.2, first cut 0.4, least cut 0.1.
TEST(ThreadInfeed, NoPassIsLessThanTheLeastDepth) {
    const std::vector<double> depths = infeedDepths(thread(1.2, 0.4, 0.1, 0, 0));
    const std::vector<double> expected{0.4, 0.5657, 0.6928, 0.8, 0.9, 1.0, 1.1, 1.2};
    ASSERT_EQ(depths.size(), expected.size());
    for (std::size_t i = 0; i < depths.size(); ++i) EXPECT_NEAR(depths[i], expected[i], 0.00005);
}

// h3 = 0.61343 P (threads.csv) for every pitch of the table.
TEST(ThreadInfeed, ThePassesOfEveryPitchAddUpToItsDepth) {
    for (const shop::ReferenceRow& row : shop::referenceRows("threads.csv")) {
        if (row.text("kind") != "basic") continue;
        const double depth = *row.number("h3_ext_depth_mm");
        EXPECT_NEAR(depth, 0.61343 * *row.number("pitch_mm"), 0.0001)
            << "printed coefficient of five figures, " << row.text("designation");
        for (const double allowance : {0.0, 0.02, 0.1}) {
            const std::vector<double> depths = infeedDepths(thread(depth, 0.25, 0.05, allowance, 2));
            double before = 0, sum = 0;
            for (const double d : depths) {
                EXPECT_GE(d, before);
                sum += d - before;
                before = d;
            }
            EXPECT_NEAR(sum, depth, 1e-12);
            EXPECT_EQ(depths[depths.size() - 2], depth);
            EXPECT_EQ(depths[depths.size() - 1], depth);
            if (allowance > 0) {
                EXPECT_NEAR(depths[depths.size() - 3], depth - allowance, 1e-12);
            }
        }
    }
}

TEST(ThreadInfeed, PassesOfTheLawTakeTheSameArea) {
    for (const double first : {0.1, 0.27, 0.4}) {
        const std::vector<double> depths = infeedDepths(thread(1.84, first, 0, 0.05, 1));
        ASSERT_GT(depths.size(), 4u);
        // The last pass of the law takes what is left, the finish pass the allowance.
        for (std::size_t i = 1; i + 2 < depths.size(); ++i) {
            EXPECT_NEAR(depths[i] * depths[i] - depths[i - 1] * depths[i - 1], first * first, 1e-9);
        }
        EXPECT_LE(std::pow(depths[depths.size() - 2], 2) - std::pow(depths[depths.size() - 3], 2),
                  first * first + 1e-9);
    }
}

TEST(ThreadInfeed, RefusesToRunOn) {
    EXPECT_TRUE(infeedDepths(thread(1.84, 0.001)).empty());
    EXPECT_TRUE(planThreadingCycle(thread(1.84, 0.001)).tooManyPasses);
    EXPECT_FALSE(planThreadingCycle(thread(1.84, 0.06)).tooManyPasses);  // (1.84 / 0.06)² = 941 passes
    EXPECT_EQ(infeedDepths(thread(1.84, 3)), (std::vector<double>{1.84, 1.84}));
}

TEST(ThreadingPlan, EveryPassComesBackToTheStartAndJoinsTheNext) {
    const ThreadingCycle cycle = thread(0.92, 0.3, 0.05, 0.02, 2);
    const ThreadPlan plan = planThreadingCycle(cycle);
    Point at = cycle.last.start;
    for (const CycleMove& move : plan.moves) {
        EXPECT_EQ(move.from, at);
        at = move.to;
        EXPECT_EQ(move.lead > 0, move.kind == MoveKind::Thread);
    }
    EXPECT_EQ(at, cycle.last.start);
    EXPECT_EQ(plan.moves.back().pass, plan.depths.size());
}

TEST(ThreadingPlan, ThePullOutRunsAtFortyFiveDegreesAndNeverBeyondTheStart) {
    ThreadingPass pass;
    pass.start = {6, 14};
    pass.end = {-20, 9};
    pass.lead = 1.5;
    pass.pullOut = 2;
    std::vector<CycleMove> moves = planThreadingPass(pass);
    ASSERT_EQ(moves.size(), 5u);
    EXPECT_EQ(moves[1].to, (Point{-18, 9}));
    EXPECT_EQ(moves[2].to, (Point{-20, 11}));
    EXPECT_EQ(moves[3].to, (Point{-20, 14}));
    pass.pullOut = 8;
    moves = planThreadingPass(pass);
    EXPECT_EQ(moves[2].to, (Point{-20, 14}));
    pass.pullOut = 0;
    moves = planThreadingPass(pass);
    ASSERT_EQ(moves.size(), 4u);
    EXPECT_EQ(moves[1].to, (Point{-20, 9}));
}

TEST(ThreadingPlan, ATaperIsTheSameConeForEveryPass) {
    ThreadingCycle cycle = thread(0.92, 0.3, 0.05, 0.02, 2);
    cycle.last.taper = -0.8;
    cycle.last.pullOut = 0;
    cycle.infeedAngle = radians(60);
    std::size_t pass = 0;
    for (const CycleMove& move : planThreadingCycle(cycle).moves) {
        if (move.kind != MoveKind::Thread) continue;
        const double depth = planThreadingCycle(cycle).depths[pass++];
        EXPECT_NEAR(move.threadDepth, depth, 1e-12);
        EXPECT_NEAR((move.to.r - move.from.r) / (move.to.z - move.from.z), -0.8 / 26, 1e-12);
        EXPECT_NEAR(move.to.r, cycle.last.end.r + cycle.depth - depth, 1e-12);
        // One flank: the start moves on by depth times tan 30°.
        EXPECT_NEAR(move.from.z, 6 - depth * std::tan(radians(30)), 1e-12);
    }
    EXPECT_GT(pass, 4u);
}

struct Mirror {
    const char* name;
    double z, r;  // signs
};

class ThreadTwins : public testing::TestWithParam<Mirror> {};

// A left-hand thread is the mirror image along Z, an inside thread the mirror image about any radius.
TEST_P(ThreadTwins, AreTheMirrorImageMoveForMove) {
    constexpr double kAbout = 12;
    const Mirror m = GetParam();
    const auto mirrored = [&](Point p) { return Point{m.z * p.z, m.r > 0 ? p.r : 2 * kAbout - p.r}; };
    ThreadingCycle cycle = thread(0.92, 0.3, 0.05, 0.02, 2);
    cycle.last.taper = -0.5;
    cycle.infeedAngle = radians(55);
    ThreadingCycle twin = cycle;
    twin.last.start = mirrored(cycle.last.start);
    twin.last.end = mirrored(cycle.last.end);
    twin.last.taper = m.r * cycle.last.taper;
    const ThreadPlan a = planThreadingCycle(cycle);
    const ThreadPlan b = planThreadingCycle(twin);
    ASSERT_EQ(a.moves.size(), b.moves.size());
    for (std::size_t i = 0; i < a.moves.size(); ++i) {
        EXPECT_EQ(a.moves[i].kind, b.moves[i].kind);
        EXPECT_NEAR(distance(mirrored(a.moves[i].to), b.moves[i].to), 0, 1e-12) << i;
    }
}

INSTANTIATE_TEST_SUITE_P(Hands, ThreadTwins,
                         testing::Values(Mirror{"inside", 1, -1}, Mirror{"left", -1, 1}, Mirror{"inside_left", -1, -1}),
                         [](const auto& row) { return std::string(row.param.name); });

TEST(ThreadingPlan, StartsClearOnlyBeyondBothEndsOfATaper) {
    ThreadingPass pass;
    pass.start = {5, 10.5};
    pass.end = {-20, 10};
    EXPECT_TRUE(startsClear(pass));
    pass.taper = 0.8;
    EXPECT_FALSE(startsClear(pass));
    pass.taper = -0.8;
    EXPECT_TRUE(startsClear(pass));
    pass.start.r = 10;
    EXPECT_FALSE(startsClear(pass));
}

TEST(TappingPlan, GoesInAndOutAtTheLead) {
    DrillCycle hole;
    hole.start = {10, 20};
    hole.retractZ = 5;
    hole.bottomZ = -20;
    hole.dwellS = 0.5;
    const std::vector<CycleMove> moves = planTapping(hole, 1.75);
    ASSERT_EQ(moves.size(), 6u);
    EXPECT_EQ(moves[2].kind, MoveKind::Thread);
    EXPECT_EQ(moves[2].to, (Point{-20, 0}));
    EXPECT_FALSE(moves[2].reversed);
    EXPECT_EQ(moves[3].kind, MoveKind::Dwell);
    EXPECT_EQ(moves[4].kind, MoveKind::Thread);
    EXPECT_TRUE(moves[4].reversed);
    EXPECT_EQ(moves[4].lead, 1.75);
    EXPECT_EQ(moves[4].to, (Point{5, 0}));
    EXPECT_EQ(moves[5].to, (Point{10, 0}));
}

}  // namespace
}  // namespace firstoff
