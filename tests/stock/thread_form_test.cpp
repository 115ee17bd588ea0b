// Threads as they really come out: hand, starts, phase, and the history through them.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/history.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

using shop::ThreadWork;
using shop::TipPath;

struct Job {
    firstoff::Setup setup = shop::barStock(24, 60);
    TipPath path{setup};
    double frontZ = setup.stock.frontZ;

    explicit Job(const ThreadWork& work) : path(tooled(work.pitch)) { shop::cutThread(path, 5, frontZ, work); }
    std::shared_ptr<const StockHistory> cut(HistoryOptions options = {}) const {
        return StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
    }

private:
    const firstoff::Setup& tooled(double pitch) {
        shop::addFullProfile(setup, 5, pitch);
        return setup;
    }
};

double outerAt(const Billet& billet, double z, int sector) {
    std::vector<Interval> solids;
    billet.intervals(billet.grid().columnNear(z), solids, sector);
    return solids.empty() ? 0 : solids.back().outer;
}

// Z of the lowest place of the groove between two places.
double rootBetween(const Billet& billet, double zFrom, double zTo, int sector) {
    double lowest = 1e9;
    double first = 0, last = 0;
    for (double z = zFrom; z < zTo; z += billet.grid().pitch) {
        const double r = outerAt(billet, z, sector);
        if (r < lowest - 1e-9) first = z;
        if (r < lowest + 1e-9) last = z;
        lowest = std::min(lowest, r);
    }
    return (first + last) / 2;
}

StockCursor atEnd(const std::shared_ptr<const StockHistory>& history) {
    StockCursor cursor(history);
    cursor.seek(static_cast<std::uint32_t>(history->cuts().size()), 0);
    return cursor;
}

TEST(ThreadForm, RootLiesAtTheProgrammedDepthInEverySector) {
    const Job job({});
    const auto history = job.cut();
    const StockCursor cursor = atEnd(history);
    for (int sector = 0; sector < cursor.billet().sectors(); ++sector) {
        double least = 1e9, most = 0;
        for (double z = job.frontZ - 20; z < job.frontZ - 17; z += 0.002) {
            const double r = outerAt(cursor.billet(), z, sector);
            least = std::min(least, r);
            most = std::max(most, r);
        }
        EXPECT_NEAR(least, 12 - 0.61343 * 3, 1.2e-6)
            << sector;  // a column stands within 1 µm of the middle of the R0.433
        EXPECT_EQ(most, 12) << sector;
    }
}

// The sector that comes to the tool later is cut further along the feed: under M03 towards the chuck at lower z.
TEST(ThreadForm, HandFollowsSpindleAndFeed) {
    struct Row {
        SpindleDirection direction;
        bool away;
        double step;  // of the root over a quarter of the sectors, in leads
    };
    for (const Row& row : {Row{SpindleDirection::Forward, false, -0.25}, Row{SpindleDirection::Reverse, false, 0.25},
                           Row{SpindleDirection::Forward, true, 0.25}, Row{SpindleDirection::Reverse, true, -0.25}}) {
        ThreadWork work;
        work.direction = row.direction;
        work.awayFromChuck = row.away;
        const Job job(work);
        HistoryOptions options;
        options.sectors = 32;
        const StockCursor cursor = atEnd(job.cut(options));
        const double from = job.frontZ - 20;
        const double at0 = rootBetween(cursor.billet(), from, from + 3, 0);
        const double middle = at0 + row.step * 3;
        EXPECT_NEAR(rootBetween(cursor.billet(), middle - 1.4, middle + 1.4, 8), middle, 0.004);  // two columns
    }
}

TEST(ThreadForm, StartsStandEvenlyApart) {
    ThreadWork work;
    work.pitch = 1.5;
    work.starts = 2;
    const Job job(work);
    HistoryOptions options;
    options.sectors = 32;
    const StockCursor cursor = atEnd(job.cut(options));
    const double first = rootBetween(cursor.billet(), job.frontZ - 20, job.frontZ - 18.5, 0);
    EXPECT_NEAR(rootBetween(cursor.billet(), first + 0.75, first + 2.25, 0), first + 1.5, 0.004);
    // Half a turn on the lead of 3 has moved each groove to where the other was.
    EXPECT_NEAR(rootBetween(cursor.billet(), first - 0.7, first + 0.7, 16), first, 0.004);
}

// What a thread takes out is a helical prism: the area of its axial section, at each radius times the circumference,
// per lead. Pappus for a helix: the volume of the groove over one lead is the integral of 2 pi r times its width at r.
TEST(ThreadForm, VolumeIsThatOfTheGroove) {
    const Job job({});
    HistoryOptions options;
    const auto history = job.cut(options);
    const StockCursor cursor = atEnd(history);
    // Between two places a whole number of leads apart.
    const double zFrom = job.frontZ - 30, zTo = job.frontZ - 6;
    double area = 0;
    const Grid& grid = cursor.billet().grid();
    for (int column = grid.columnNear(zFrom); column < grid.columnNear(zTo); ++column) {
        for (int sector = 0; sector < 256; sector += 8) {
            const double r = outerAt(cursor.billet(), grid.z(column), sector);
            area += (12 * 12 - r * r) / 32;
        }
    }
    const double measured = area * kPi * grid.pitch / (zTo - zFrom) * 3;
    // The groove: V of 60° with its apex at 12 - 7/8 H, rounded with H/6 from the root at 12 - h3 on.
    const double H = 3 * std::sqrt(3.0) / 2;
    const double apex = 12 - 7.0 / 8 * H, nose = 0.14434 * 3, root = 12 - 0.61343 * 3;
    double expected = 0;
    const int steps = 200000;
    for (int i = 0; i < steps; ++i) {
        const double r = root + (12 - root) * (i + 0.5) / steps;
        const double tangent = root + nose * (1 - std::sin(radians(30)));
        const double flank = (r - apex) * std::tan(radians(30));
        const double up = r - root - nose;
        const double half = r < tangent ? std::sqrt(std::max(0.0, nose * nose - up * up)) : flank;
        expected += 2 * kPi * r * 2 * half * (12 - root) / steps;
    }
    EXPECT_NEAR(measured / expected, 1, 2e-4);  // 0.144 P instead of H/6 and columns of 2 µm
}

TEST(ThreadForm, SameForAnyNumberOfThreadsAndAtEveryInstantInEitherDirection) {
    ThreadWork work;
    work.length = 12;
    work.passes = 5;
    Job job(work);
    job.path.tool(5).rapid(40, job.frontZ + 2);
    HistoryOptions one, two;
    one.sectors = two.sectors = 16;
    one.threads = 1;
    two.threads = 2;
    two.keyframeBytes = 1;  // only the first frame is kept
    const auto a = job.cut(one);
    const auto b = job.cut(two);
    EXPECT_EQ(a->hash(), b->hash());
    const auto moves = static_cast<std::uint32_t>(a->cuts().size());
    StockCursor straight(a), back(a), tight(b);
    std::vector<std::uint64_t> hashes;
    for (std::uint32_t move = 0; move < moves; ++move) {
        straight.seek(move, 0.6);
        hashes.push_back(straight.hash());
    }
    for (std::uint32_t move = moves; move-- > 0;) {
        back.seek(move, 0.6);
        EXPECT_EQ(back.hash(), hashes[move]) << move;
    }
    tight.seek(moves / 2, 0.6);
    EXPECT_EQ(tight.hash(), hashes[moves / 2]);
    tight.seek(moves, 0);
    back.seek(moves, 0);
    EXPECT_EQ(tight.hash(), back.hash());
    double removed = 0;
    for (const Cut& cut : a->cuts()) removed += cut.removedMm3;
    EXPECT_NEAR(removed, a->startVolumeMm3() - a->endVolumeMm3(), 1e-4 * removed);  // figures are kept as floats
}

// A part of a thread move and the rest of it are the whole.
TEST(ThreadForm, BeginningOfAPassIsWithinTheWhole) {
    ThreadWork work;
    work.passes = 1;
    work.depth = 0.5;
    const Job job(work);
    HistoryOptions options;
    options.sectors = 16;
    const auto history = job.cut(options);
    const std::uint32_t pass = 2;
    StockCursor cursor(history);
    double before = history->startVolumeMm3();
    for (double share : {0.2, 0.4, 0.6, 0.8, 1.0}) {
        cursor.seek(pass, share);
        EXPECT_LT(cursor.volumeMm3(), before);
        before = cursor.volumeMm3();
    }
    cursor.seek(pass + 1, 0);
    EXPECT_EQ(cursor.volumeMm3(), before);
}

// On a taper of 1 in 16 (on diameter) each turn's root lies by lead / 32 further out, radially; the chained way out
// rises to the crest within its own lead.
TEST(ThreadForm, TaperAndPullOutFollowTheTip) {
    auto setup = shop::barStock(30, 60);
    shop::addThreadingTool(setup, 5);
    const double front = setup.stock.frontZ;
    TipPath path(setup);
    path.tool(5).turning(SpindleDirection::Forward, 500).at(40, front + 4).rapid(27, front + 4);
    path.thread(27 + 24.0 / 16, front - 20, 2).thread(27 + 24.0 / 16 + 4, front - 22, 2).rapid(40, front - 22);
    HistoryOptions options;
    options.sectors = 16;
    const StockCursor cursor = atEnd(StockHistory::cut(path.timeline(), path.toolpath(), setup, options));
    const Billet& billet = cursor.billet();
    const double first = rootBetween(billet, front - 9, front - 7, 5);
    for (int turn = 0; turn < 5; ++turn) {
        const double z = first - 2 * turn;
        EXPECT_NEAR(rootBetween(billet, z - 0.9, z + 0.9, 5), z, 0.004);  // two columns
        const double tip = (27 + (front + 4 - z) / 16) / 2;
        EXPECT_NEAR(outerAt(billet, z, 5), tip, 1e-4);  // the nose of 0.1 over a column, and where its least is
    }
    double shallowest = 0;
    for (double z = front - 22; z < front - 20.5; z += 0.01) shallowest = std::max(shallowest, outerAt(billet, z, 5));
    EXPECT_EQ(shallowest, 15);
}

TEST(ThreadForm, APassTurnedOverItMakesItRoundAgain) {
    ThreadWork work;
    work.passes = 3;
    Job job(work);
    shop::addTurningTool(job.setup, 1, 'C', 0.4);
    TipPath path(job.setup);
    shop::cutThread(path, 5, job.frontZ, work);
    path.tool(1).at(30, job.frontZ + 2).rapid(20, job.frontZ + 2).feed(20, job.frontZ - 44).feed(30, job.frontZ - 44);
    const auto history = StockHistory::cut(path.timeline(), path.toolpath(), job.setup);
    const StockCursor cursor = atEnd(history);
    for (int chunk = 0; chunk < cursor.billet().grid().chunks(); ++chunk) {
        ASSERT_TRUE(cursor.billet().isRound(chunk)) << chunk;
    }
}

TEST(ThreadForm, PartedPieceTakesItsThreadAlong) {
    ThreadWork work;
    work.passes = 3;
    Job job(work);
    shop::addPartingTool(job.setup, 4, 3, 0.1);
    TipPath path(job.setup);
    shop::cutThread(path, 5, job.frontZ, work);
    path.tool(4).at(40, job.frontZ - 23).feed(-1, job.frontZ - 23);
    HistoryOptions options;
    options.sectors = 16;
    const auto history = StockHistory::cut(path.timeline(), path.toolpath(), job.setup, options);
    ASSERT_EQ(history->severances().size(), 1u);
    const StockCursor cursor = atEnd(history);
    const double whole = 24.0 * 24 / 4 * kPi * 20;
    EXPECT_LT(history->severances()[0].volumeMm3, 0.95 * whole);
    double removed = 0;
    for (const Cut& cut : history->cuts()) removed += cut.removedMm3;
    EXPECT_NEAR(removed + history->severances()[0].volumeMm3 + history->endVolumeMm3(), history->startVolumeMm3(), 0.1);
    // The section of the piece shows the groove.
    double least = 1e9;
    for (const Loop& loop : cursor.section(0.001, 3)) {
        if (loop.piece != 1) continue;
        for (const Point& p : loop.points) {
            if (p.z < job.frontZ - 5 && p.z > job.frontZ - 18 && p.r > 1) least = std::min(least, p.r);
        }
    }
    EXPECT_NEAR(least, 12 - 0.61343 * 3, 0.002);
}

}  // namespace
}  // namespace firstoff
