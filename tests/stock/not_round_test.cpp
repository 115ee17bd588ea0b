// Cutting blanks that are not round: what is left, sector by sector, against closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/history.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

using shop::TipPath;

firstoff::Setup hexagonBar(double acrossFlats, double stickOut) {
    auto setup = shop::barStock(2 * acrossFlats / std::sqrt(3.0), stickOut);
    setup.stock.shape = Stock::Shape::Hexagon;
    setup.stock.acrossFlats = acrossFlats;
    shop::addTurningTool(setup, 1, 'C', 0.8, 95);
    shop::addPartingTool(setup, 4, 3, 0.1);
    return setup;
}

double areaOfHexagon(double acrossFlats) {
    return std::sqrt(3.0) / 2 * acrossFlats * acrossFlats;
}

// Area that a hexagon and a circle of radius r share, for r between half the flats and the corners: the circle less six
// segments. Elementary geometry.
double areaShared(double acrossFlats, double r) {
    const double half = std::acos(acrossFlats / 2 / r);
    return kPi * r * r - 6 * (r * r * half - acrossFlats / 2 * r * std::sin(half));
}

StockCursor atEnd(const std::shared_ptr<const StockHistory>& history) {
    StockCursor cursor(history);
    cursor.seek(static_cast<std::uint32_t>(history->cuts().size()), 0);
    return cursor;
}

// 264 sectors share out a hexagon evenly, so each sector stands for its share of the area but for the curvature within
// it: relative (pi / 264)² and less.
constexpr double kSectorShare = 1.5e-4;

TEST(HexagonBar, HasItsVolume) {
    const auto setup = hexagonBar(24, 60);
    const Billet billet(setup.stock);
    const double length = setup.stock.frontZ - setup.stock.backZ;
    EXPECT_NEAR(billet.volumeMm3() / (areaOfHexagon(24) * length), 1, kSectorShare);
    EXPECT_FALSE(billet.isRound(0));
}

TEST(HexagonBar, TurnedBelowItsFlatsIsRoundAndAboveThemKeepsSixFlats) {
    for (const double diameter : {20.0, 26.0}) {
        const auto setup = hexagonBar(24, 60);
        const double front = setup.stock.frontZ;
        TipPath path(setup);
        path.tool(1).at(40, front + 2).rapid(diameter, front + 2).feed(diameter, front - 30).feed(40, front - 30);
        const auto history = StockHistory::cut(path.timeline(), path.toolpath(), setup);
        const StockCursor cursor = atEnd(history);
        const int chunk = cursor.billet().grid().columnNear(front - 10) / kChunkColumns;
        EXPECT_EQ(cursor.billet().isRound(chunk), diameter < 24);
        const double length = front - setup.stock.backZ;
        const double r = diameter / 2;
        const double left = diameter < 24 ? kPi * r * r : areaShared(24, r);
        // The nose leaves a fillet and a slope at the shoulder: less than its square times a circumference.
        const double expected = left * 30 + areaOfHexagon(24) * (length - 30);
        EXPECT_NEAR(history->endVolumeMm3(), expected, kSectorShare * expected + 0.8 * 0.8 * kPi * 28);
        EXPECT_NEAR(history->startVolumeMm3() - history->endVolumeMm3(),
                    history->cuts()[1].removedMm3 + history->cuts()[2].removedMm3, 1e-5 * history->startVolumeMm3());
        // Depth is what the corners lose.
        EXPECT_NEAR(history->cuts()[1].deepestMm, 24 / std::sqrt(3.0) - r, 1e-4);
    }
}

TEST(HexagonBar, SectionShowsTheSectorAskedFor) {
    const auto setup = hexagonBar(24, 60);
    const double front = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(1).at(40, front + 2).rapid(20, front + 2).feed(20, front - 30).feed(40, front - 30);
    const StockCursor cursor = atEnd(StockHistory::cut(path.timeline(), path.toolpath(), setup));
    const auto greatest = [&](int sector) {
        double r = 0;
        for (const Loop& loop : cursor.section(0.001, sector)) {
            for (const Point& p : loop.points) r = std::max(r, p.r);
        }
        return r;
    };
    EXPECT_NEAR(greatest(0), 12, 1e-9);                    // middle of a flat
    EXPECT_NEAR(greatest(22), 24 / std::sqrt(3.0), 1e-9);  // a corner, a twelfth of a turn on
    EXPECT_NEAR(greatest(kEnvelope), 24 / std::sqrt(3.0), 1e-9);
}

TEST(HexagonBar, PartedPieceIsAHexagonAndNothingIsLost) {
    const auto setup = hexagonBar(24, 60);
    const double front = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(4).at(40, front - 20).feed(-1, front - 20).rapid(40, front - 20).rapid(40, front + 5);
    path.tool(1).rapid(20, front + 2).feed(20, front - 10);  // the piece has fallen
    const auto history = StockHistory::cut(path.timeline(), path.toolpath(), setup);
    ASSERT_EQ(history->severances().size(), 1u);
    // 17 mm, and behind the rounded corner of the blade a trace less.
    EXPECT_NEAR(history->severances()[0].volumeMm3, areaOfHexagon(24) * 17,
                kSectorShare * areaOfHexagon(24) * 17 + 0.5);
    double all = history->severances()[0].volumeMm3 + history->endVolumeMm3();
    for (const Cut& cut : history->cuts()) all += cut.removedMm3;
    EXPECT_NEAR(all, history->startVolumeMm3(), 1e-6 * all);
}

TEST(HexagonBar, SeeksBothWaysAndForAnyNumberOfThreadsAlike) {
    const auto setup = hexagonBar(24, 60);
    const double front = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(1).at(40, front + 2);
    for (double x : {27.0, 25.0, 23.0, 21.0}) {
        path.rapid(x, front + 2).feed(x, front - x).feed(x + 2, front - x + 1).rapid(x + 2, front + 2);
    }
    path.tool(4).rapid(40, front - 40).feed(-1, front - 40);
    HistoryOptions one, two;
    one.threads = 1;
    two.threads = 2;
    two.keyframeBytes = 1;
    const auto a = StockHistory::cut(path.timeline(), path.toolpath(), setup, one);
    const auto b = StockHistory::cut(path.timeline(), path.toolpath(), setup, two);
    EXPECT_EQ(a->hash(), b->hash());
    StockCursor straight(a), back(b);
    std::vector<std::uint64_t> hashes;
    for (std::uint32_t move = 0; move <= path.moves(); ++move) {
        straight.seek(move, 0.4);
        hashes.push_back(straight.hash());
    }
    for (std::uint32_t move = path.moves() + 1; move-- > 0;) {
        back.seek(move, 0.4);
        EXPECT_EQ(back.hash(), hashes[move]) << move;
    }
}

// An eccentric bar turned round leaves a crescent; what is left where the tool clears the near side is the whole bar.
TEST(EccentricBar, IsCutWhereItStandsProud) {
    auto setup = shop::barStock(32, 60);
    setup.stock.shape = Stock::Shape::Round;
    setup.stock.eccentricity = 3;
    setup.stock.outerRadius = 16 + 3;
    shop::addTurningTool(setup, 1, 'C', 0.4, 95);
    const double front = setup.stock.frontZ;
    const Billet blank(setup.stock);
    EXPECT_NEAR(blank.volumeMm3() / (kPi * 256 * (front - setup.stock.backZ)), 1, 1e-9)
        << "trapezia round a circle are exact";
    TipPath path(setup);
    path.tool(1).at(50, front + 2).rapid(25.8, front + 2).feed(25.8, front - 20).feed(50, front - 20);
    const StockCursor cursor = atEnd(StockHistory::cut(path.timeline(), path.toolpath(), setup));
    std::vector<Interval> solids;
    const int column = cursor.billet().grid().columnNear(front - 5);
    for (int sector = 0; sector < cursor.billet().sectors(); ++sector) {
        cursor.billet().intervals(column, solids, sector);
        ASSERT_EQ(solids.size(), 1u);
        EXPECT_NEAR(solids[0].outer, 12.9, 1e-12) << sector;  // the bar measures 13 where it is nearest: round all over
    }
    EXPECT_TRUE(cursor.billet().isRound(column / kChunkColumns));
}

// The part of one trial is the blank of the next, turned round: its thread comes along.
TEST(SecondOperation, TakesThePartOverTurnedRound) {
    auto first = shop::barStock(24, 60);
    shop::addFullProfile(first, 5, 3);
    shop::addPartingTool(first, 4, 3, 0.1);
    const double front = first.stock.frontZ;
    TipPath path(first);
    shop::ThreadWork work;
    work.passes = 4;
    work.length = 20;
    shop::cutThread(path, 5, front, work);
    path.tool(4).at(40, front - 43).feed(-1, front - 43);
    HistoryOptions options;
    options.sectors = 16;
    const auto before = StockHistory::cut(path.timeline(), path.toolpath(), first, options);
    ASSERT_EQ(before->severances().size(), 1u);

    auto second = shop::barStock(24, 30);
    second.stock.shape = Stock::Shape::Previous;
    second.stock.turnedRound = true;
    second.stock.piece = 1;
    second.stock.backZ = second.stock.frontZ - 40;
    shop::addTurningTool(second, 1, 'C', 0.4, 95);
    TipPath facing(second);
    facing.tool(1).at(30, second.stock.frontZ - 0.5).feed(-1, second.stock.frontZ - 0.5);
    HistoryOptions on;
    on.previous = before;
    const auto after = StockHistory::cut(facing.timeline(), facing.toolpath(), second, on);
    EXPECT_NEAR(after->startVolumeMm3(), before->severances()[0].volumeMm3, 1e-6 * after->startVolumeMm3());
    EXPECT_NEAR(after->cuts()[0].removedMm3, kPi * 144 * 0.5, 0.6);  // the corners of the blade left a trace
    // The thread now lies towards the chuck, its grooves running the same way round: hand does not change with the end.
    const StockCursor cursor = atEnd(after);
    EXPECT_EQ(cursor.billet().sectors(), 16);
    int grooved = 0;
    std::vector<Interval> solids;
    for (double z = second.stock.backZ + 5; z < second.stock.backZ + 15; z += 0.01) {
        cursor.billet().intervals(cursor.billet().grid().columnNear(z), solids, 5);
        grooved += solids.back().outer < 11;
    }
    EXPECT_GT(grooved, 300);
}

}  // namespace
}  // namespace firstoff
