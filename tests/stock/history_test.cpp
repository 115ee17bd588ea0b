// The billet through time: seeking, threads, budgets, and pieces that fall.
#include "sim/stock/history.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

using shop::TipPath;

std::shared_ptr<const StockHistory> cut(const firstoff::Setup& setup, const TipPath& path,
                                        HistoryOptions options = {}) {
    return StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
}

double totalRemoved(const StockHistory& history) {
    double sum = 0;
    for (const Cut& c : history.cuts()) sum += c.removedMm3;
    for (const Severance& s : history.severances()) sum += s.volumeMm3;
    return sum;
}

// A spigot with every kind of move: facing, roughing, an arc, a groove, a bore, and parting off.
struct Job {
    firstoff::Setup setup = shop::barStock(50, 80, 1);
    TipPath path{setup};

    Job() : path(tooled()) {
        const double front = setup.stock.frontZ;
        path.tool(1).at(60, front + 5).rapid(54, front - 1).feed(-1.6, front - 1).rapid(46, front + 1);
        for (double x : {46.0, 42.0, 38.0, 34.0}) {
            path.rapid(x, front + 1).feed(x, front - 30).feed(x + 2, front - 29).rapid(x + 2, front + 1);
        }
        path.rapid(24, front + 1).feed(24, front - 1).clockwise(34, front - 6, 34, front - 1);
        path.feed(34, front - 20).clockwise(44, front - 25, 44, front - 20).feed(52, front - 25).rapid(60, front + 5);
        path.tool(3).rapid(0, front + 5).feed(0, front - 40).rapid(0, front + 5);
        path.tool(2)
            .rapid(14, front + 2)
            .feed(14, front - 25)
            .feed(10, front - 25)
            .rapid(10, front + 2)
            .rapid(60, front + 5);
        path.tool(4).rapid(56, front - 15).feed(28, front - 15).dwell(0.5).feed(56, front - 15);
        path.rapid(56, front - 50)
            .feed(-0.4, front - 50)
            .rapid(56, front - 50)
            .rapid(60, front - 20)
            .feed(20, front - 20);
    }

private:
    const firstoff::Setup& tooled() {
        shop::addTurningTool(setup, 1, 'C', 0.8, 95);
        shop::addBoringBar(setup, 2, 'C', 0.4, 95);
        shop::addDrill(setup, 3, 12);
        shop::addPartingTool(setup, 4, 3, 0.2);
        return setup;
    }
};

TEST(StockHistory, RemovedAndLeftMakeUpTheBar) {
    const Job job;
    const auto history = cut(job.setup, job.path);
    const double start = history->startVolumeMm3();
    ASSERT_EQ(history->severances().size(), 1U);
    // Each of some thirty moves is kept as a float (6e-8 of its value).
    EXPECT_NEAR(totalRemoved(*history) + history->endVolumeMm3(), start, 1e-6 * start);
    for (const Cut& c : history->cuts()) EXPECT_GE(c.removedMm3, 0);
}

TEST(StockHistory, SameForAnyNumberOfThreads) {
    const auto setup = shop::wavyContourSetup();
    const TipPath path = shop::wavyContour(setup, 20000);
    HistoryOptions options;
    options.threads = 1;
    const auto one = cut(setup, path, options);
    for (int threads : {2, 4}) {
        options.threads = threads;
        const auto several = cut(setup, path, options);
        EXPECT_EQ(several->hash(), one->hash()) << threads;
    }
}

TEST(StockHistory, EverySeekBothWaysIsTheStraightRun) {
    const Job job;
    for (std::size_t budget : {std::size_t{1}, std::size_t{256} << 20}) {
        HistoryOptions options;
        options.keyframeBytes = budget;
        const auto history = cut(job.setup, job.path, options);
        const std::uint32_t n = job.path.moves();
        std::vector<std::uint64_t> straight;
        StockCursor run(history);
        for (std::uint32_t move = 0; move <= n; ++move) {
            run.seek(move, 0);
            straight.push_back(run.hash());
        }
        StockCursor back(history);
        for (std::uint32_t move = n + 1; move-- > 0;) {
            back.seek(move, 0);
            EXPECT_EQ(back.hash(), straight[move]) << move;
        }
        shop::Dice dice(7);
        StockCursor jumps(history);
        for (int i = 0; i < 200; ++i) {
            const std::uint32_t move = dice.below(n + 1);
            jumps.seek(move, dice.fraction());
            // And on from inside a move to its end and the next.
            jumps.seek(std::min(move + 1, n), 0);
            EXPECT_EQ(jumps.hash(), straight[std::min(move + 1, n)]) << move;
        }
    }
}

TEST(StockHistory, SeeksInALongContourAgreeWhateverTheBudget) {
    const auto setup = shop::wavyContourSetup();
    const TipPath path = shop::wavyContour(setup, 60000);
    const auto roomy = cut(setup, path);
    HistoryOptions options;
    options.keyframeBytes = std::size_t{3} << 20;
    const auto tight = cut(setup, path, options);
    EXPECT_EQ(tight->hash(), roomy->hash());
    EXPECT_LT(tight->keyframeCount(), roomy->keyframeCount());
    StockCursor a(roomy);
    StockCursor b(tight);
    shop::Dice dice(11);
    for (int i = 0; i < 40; ++i) {
        const std::uint32_t move = dice.below(path.moves());
        const double fraction = dice.fraction();
        a.seek(move, fraction);
        b.seek(move, fraction);
        EXPECT_EQ(a.hash(), b.hash()) << move;
        EXPECT_EQ(a.volumeMm3(), b.volumeMm3()) << move;
    }
}

TEST(StockHistory, InsideAMoveTheVolumeOnlyFalls) {
    const Job job;
    const auto history = cut(job.setup, job.path);
    StockCursor cursor(history);
    double last = history->startVolumeMm3();
    for (std::uint32_t move = 0; move < job.path.moves(); ++move) {
        for (double fraction : {0.0, 0.25, 0.5, 0.75}) {
            cursor.seek(move, fraction);
            // Summed over different numbers of columns: rounding of the sums.
            EXPECT_LE(cursor.volumeMm3(), last + 1e-6) << move << " " << fraction;
            last = cursor.volumeMm3();
        }
    }
}

TEST(StockHistory, DwellsAndEmptyStationsCutNothing) {
    auto setup = shop::barStock(50, 80);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    TipPath path(setup);
    path.at(40, 100).feed(40, 50).tool(1).at(70, 100).dwell(1).feed(70, 50);
    const auto history = cut(setup, path);
    for (const Cut& c : history->cuts()) EXPECT_EQ(c.removedMm3, 0);
    EXPECT_EQ(history->endVolumeMm3(), history->startVolumeMm3());
}

TEST(StockHistory, ARapidThroughTheBarRemovesMetal) {
    auto setup = shop::barStock(50, 80);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    TipPath path(setup);
    path.tool(1).at(60, 100).rapid(40, 60);
    const auto history = cut(setup, path);
    EXPECT_GT(history->cuts()[0].removedMm3, 100);
    EXPECT_NEAR(history->cuts()[0].deepestMm, 5, 0.01);
}

// --- Pieces that fall -----------------------------------------------------------------------------------------------

TEST(Severing, PartedPieceFallsAtItsMoveWithItsVolume) {
    auto setup = shop::barStock(40, 60);
    shop::addPartingTool(setup, 1, 3, 0);
    TipPath path(setup);
    // In three steps to diameter 2, then off.
    path.tool(1).at(46, 60).feed(20, 60).feed(2, 60).feed(-0.5, 60).rapid(46, 60).feed(30, 75);
    const auto history = cut(setup, path);
    ASSERT_EQ(history->severances().size(), 1U);
    const Severance& fallen = history->severances()[0];
    EXPECT_EQ(fallen.timedMove, 2U);
    EXPECT_EQ(fallen.piece, 1);
    const double volume = kPi * 20 * 20 * (90 - 63);
    EXPECT_NEAR(fallen.volumeMm3, volume, 1e-9 * volume);
    // The bar is gone where the last move passes.
    EXPECT_EQ(history->cuts()[4].removedMm3, 0);
    // The section of the piece is its rectangle.
    ASSERT_EQ(fallen.section.size(), 1U);
    EXPECT_EQ(fallen.section[0].piece, 1);
    EXPECT_EQ(fallen.section[0].points.size(), 4U);

    StockCursor cursor(history);
    cursor.seek(2, 0.7);
    EXPECT_EQ(cursor.section().size(), 1U);
    cursor.seek(3, 0);
    EXPECT_EQ(cursor.section().size(), 2U);
    EXPECT_NEAR(cursor.volumeMm3(), kPi * 20 * 20 * 60, 1e-3);
    // Its back was made by the cut that severed it.
    int backs = 0;
    for (const Loop& loop : fallen.section) {
        for (std::size_t e = 0; e < loop.points.size(); ++e) {
            const Point a = loop.points[e], b = loop.points[(e + 1) % loop.points.size()];
            if (std::abs(a.z - b.z) > 1e-9 || std::abs(a.r - b.r) < 1) continue;
            backs += loop.cuts[e] == fallen.timedMove;
        }
    }
    EXPECT_EQ(backs, 1);
}

// Steps of a pitch and a half put the utmost point of the nose on a column again and again, where it touches and takes
// nothing; the bar stays whole, and the same as after one long cut.
TEST(Severing, TinyStepsIntoASolidBarSeverNothing) {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'D', 0.4, 93);
    const double front = setup.stock.frontZ;
    TipPath steps(setup);
    steps.tool(1).at(40, front + 2);
    for (int i = 0; i <= 4000; ++i) steps.feed(40, front - 0.003 * i);
    TipPath once(setup);
    once.tool(1).at(40, front + 2).feed(40, front - 0.003 * 4000);
    const auto inSteps = cut(setup, steps);
    const auto inOne = cut(setup, once);
    EXPECT_TRUE(inSteps->severances().empty());
    // The leaning wedge over the edge is met at other places; what is left at the end is the same to rounding.
    EXPECT_NEAR(inSteps->endVolumeMm3(), inOne->endVolumeMm3(), 1e-6 * inOne->endVolumeMm3());
}

TEST(Severing, PieceHangsOnAPipOffCentre) {
    auto setup = shop::barStock(40, 60);
    shop::addPartingTool(setup, 1, 3, 0).centreHeight = 0.2;
    TipPath path(setup);
    path.tool(1).at(46, 60).feed(-1, 60);
    const auto history = cut(setup, path);
    EXPECT_TRUE(history->severances().empty());
    StockCursor cursor(history);
    cursor.seek(1, 0);
    EXPECT_NEAR(cursor.outermostAt(61.5).outer, 0.2, 1e-12);
}

TEST(Severing, RingFallsWhenAFaceGrooveMeetsAGroove) {
    auto setup = shop::barStock(60, 60);
    Tool& blade = shop::addGroovingTool(setup, 1, 3, 0);
    blade.cutting = roundedPolygon({{0, 0}, {20, 0}, {20, 3}, {0, 3}}, {0, 0, 0, 0});
    shop::addGroovingTool(setup, 2, 4, 0);
    TipPath path(setup);
    path.tool(1).at(30, 95).feed(30, 80).rapid(30, 95).rapid(80, 95);
    path.tool(2).rapid(80, 78).feed(40, 78).feed(34, 78).rapid(80, 78);
    const auto history = cut(setup, path);
    ASSERT_EQ(history->severances().size(), 1U);
    // The face groove leaves 18 to 30 mm of radius outside it and its floor at z 80; the groove spans 78 to 82, so the
    // ring is joined to nothing once the groove is down to radius 18.
    EXPECT_EQ(history->severances()[0].timedMove, 5U);
    const double ring = kPi * (30 * 30 - 18 * 18) * (90 - 82);
    EXPECT_NEAR(history->severances()[0].volumeMm3, ring, 1e-9 * ring);
}

// Severed and turned away again within a few moves: it must not have been cut after it fell.
TEST(Severing, WhatFellIsNotCutAgain) {
    auto setup = shop::barStock(40, 60);
    shop::addPartingTool(setup, 1, 3, 0);
    TipPath path(setup);
    path.tool(1).at(46, 85).feed(-1, 85).rapid(46, 85);
    for (double z : {86.5, 88.0, 89.5}) path.rapid(46, z).feed(-1, z).rapid(46, z);
    const auto history = cut(setup, path);
    ASSERT_EQ(history->severances().size(), 1U);
    EXPECT_EQ(history->severances()[0].timedMove, 0U);
    EXPECT_NEAR(history->severances()[0].volumeMm3, kPi * 20 * 20 * 2, 1e-6);
    for (std::size_t i = 1; i < history->cuts().size(); ++i) EXPECT_EQ(history->cuts()[i].removedMm3, 0) << i;
}

}  // namespace
}  // namespace firstoff
