// Threads in time: every revolution takes the slide on by the lead.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "sim/control/thread_lead.h"
#include "sim/motion/timeline.h"
#include "tests/motion/path_by_hand.h"

namespace firstoff {
namespace {

Toolpath threadPath(const ModalState& modal, Point from, Point to, double lead, double change) {
    Toolpath path;
    path.modals.push_back(modal);
    path.calls.emplace_back();
    path.extras.push_back({lead, change, 0, false, 0, 0});
    Move move;
    move.from = from;
    move.to = to;
    move.feed = lead;
    move.kind = MoveKind::Thread;
    move.block = 0;
    move.extra = 0;
    path.moves.push_back(move);
    return path;
}

// Second method: the slide is taken on step by step, ds / (L(s) N(rho(s))).
double secondsByHand(const Toolpath& path, const firstoff::Setup& setup, const Timeline& timeline) {
    const Move& move = path.moves[0];
    const MoveExtra& extra = path.extras[0];
    const double way = std::max(std::abs(move.to.z - move.from.z), std::abs(move.to.r - move.from.r));
    constexpr int kSteps = 200000;
    double minutes = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double s = way * (i + 0.5) / kSteps;
        const double lead = std::sqrt(extra.lead * extra.lead + 2 * extra.leadChange * s);
        minutes += way / kSteps / (lead * revPerMinAt(timeline.moves[0], path, setup, s / way));
    }
    return 60 * minutes;
}

TEST(ThreadTime, IsRevolutionsOverSpeed) {
    auto setup = shop::openLathe();
    // 30 mm at a lead of 1.5 are 20 revolutions; at 600 rev/min 2 s. The lead counts along Z, taper or not.
    EXPECT_NEAR(layOut(threadPath(shop::constantRevPerMin(600), {0, 10}, {-30, 10}, 1.5, 0), setup).cycleTimeS, 2,
                1e-12);
    EXPECT_NEAR(layOut(threadPath(shop::constantRevPerMin(600), {0, 10}, {-30, 25}, 1.5, 0), setup).cycleTimeS, 2,
                1e-12);
    // On a face it counts along X, on radius: 30 mm of radius.
    EXPECT_NEAR(layOut(threadPath(shop::constantRevPerMin(600), {0, 40}, {0, 10}, 1.5, 0), setup).cycleTimeS, 2, 1e-12);
}

TEST(ThreadTime, DoesNotDependOnFeedPerMinuteBeingInForce) {
    auto setup = shop::openLathe();
    ModalState modal = shop::constantRevPerMin(600);
    modal.feedPerRev = false;
    EXPECT_NEAR(layOut(threadPath(modal, {0, 10}, {-30, 10}, 1.5, 0), setup).cycleTimeS, 2, 1e-12);
}

struct Row {
    const char* name;
    ModalState modal;
    Point from, to;
    double lead, change;
};

class ThreadTimes : public testing::TestWithParam<Row> {};

TEST_P(ThreadTimes, AgreesWithSmallStepsAndFindsItsWayBack) {
    auto setup = shop::openLathe();
    const Row& row = GetParam();
    const Toolpath path = threadPath(row.modal, row.from, row.to, row.lead, row.change);
    const Timeline timeline = layOut(path, setup);
    // 200,000 steps leave a relative error below 1e-8 on these smooth integrands; kinks at the clamp cost a little.
    EXPECT_NEAR(timeline.cycleTimeS / secondsByHand(path, setup, timeline), 1, 1e-6);
    const TimedMove& timed = timeline.moves[0];
    double before = 0;
    for (double share : {0.1, 0.35, 0.5, 0.8, 0.97}) {
        const double fraction = fractionAt(timed, path, setup, share * timed.t1);
        EXPECT_GT(fraction, before);
        before = fraction;
        // The first part alone, laid out anew, takes that share of the time.
        const Toolpath part =
            threadPath(row.modal, row.from, row.from + fraction * (row.to - row.from), row.lead, row.change);
        EXPECT_NEAR(layOut(part, setup).cycleTimeS, share * timed.t1, 1e-9);
    }
}

INSTANTIATE_TEST_SUITE_P(
    Ways, ThreadTimes,
    testing::Values(Row{"constant", shop::constantRevPerMin(500), {0, 10}, {-40, 10}, 2, 0},
                    Row{"growing lead", shop::constantRevPerMin(500), {0, 10}, {-40, 10}, 2, 0.1},
                    Row{"falling lead", shop::constantRevPerMin(500), {0, 10}, {-40, 10}, 2, -0.04},
                    Row{"taper at surface speed", shop::constantSurfaceSpeed(100, 0), {0, 10}, {-40, 20}, 2, 0},
                    Row{"taper into the clamp", shop::constantSurfaceSpeed(100, 1000), {0, 10}, {-40, 20}, 2, 0.1},
                    Row{"scroll past the axis", shop::constantSurfaceSpeed(100, 2000), {0, 40}, {0, -10}, 3, -0.02},
                    Row{"scroll outwards", shop::constantSurfaceSpeed(100, 2000), {0, -5}, {0, 40}, 3, 0.02}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(ThreadTime, LeadLawIsItsOwnInverse) {
    for (double change : {-0.05, 0.0, 0.2}) {
        const LeadLaw law{2, change};
        for (double way : {0.5, 10.0, 39.0}) EXPECT_NEAR(law.wayAfter(law.revolutions(way)), way, 1e-12);
    }
    // Elementary: 10 turns from a lead of 2, 0.1 more each: 20 + 0.1 * 100 / 2 = 25 mm, the last lead 3.
    EXPECT_NEAR((LeadLaw{2, 0.1}.revolutions(25)), 10, 1e-12);
    EXPECT_NEAR((LeadLaw{2, 0.1}.leadAt(25)), 3, 1e-12);
    EXPECT_FALSE((LeadLaw{2, -0.1}.lasts(20)));
    EXPECT_TRUE((LeadLaw{2, -0.1}.lasts(19.9)));
}

TEST(ThreadLimits, AThreadThatTheSlideCannotFollowIsAStop) {
    auto setup = shop::openLathe();
    setup.machine.maxFeedMmPerMin = 5000;
    EXPECT_TRUE(layOut(threadPath(shop::constantRevPerMin(2000), {0, 10}, {-30, 10}, 2.5, 0), setup).findings.empty());
    const Timeline over = layOut(threadPath(shop::constantRevPerMin(2001), {0, 10}, {-30, 10}, 2.5, 0), setup);
    ASSERT_EQ(over.findings.size(), 1u);
    EXPECT_EQ(over.findings[0].code, "thread-above-feed-limit");
    EXPECT_EQ(over.findings[0].severity, Severity::Stop);
    // The lead has grown too large at the end only.
    EXPECT_EQ(layOut(threadPath(shop::constantRevPerMin(2000), {0, 10}, {-30, 10}, 2.4, 0.1), setup).findings.size(),
              1u);
}

TEST(ThreadLimits, AThreadWithTheSpindleStoppedWaitsForEver) {
    auto setup = shop::openLathe();
    ModalState modal = shop::constantRevPerMin(600);
    modal.spindle = SpindleDirection::Stopped;
    const Timeline timeline = layOut(threadPath(modal, {0, 10}, {-30, 10}, 1.5, 0), setup);
    ASSERT_EQ(timeline.findings.size(), 1u);
    EXPECT_EQ(timeline.findings[0].code, "feed-per-rev-with-spindle-stopped");
}

}  // namespace
}  // namespace firstoff
