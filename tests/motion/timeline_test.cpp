#include "sim/motion/timeline.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <ctime>
#include <functional>

#include "sim/base/units.h"
#include "tests/motion/path_by_hand.h"

namespace firstoff {
namespace {

using shop::constantRevPerMin;
using shop::constantSurfaceSpeed;
using shop::openLathe;
using shop::PathByHand;

double cycleTime(PathByHand& path, const firstoff::Setup& setup) {
    return layOut(path.path(), setup).cycleTimeS;
}

// Simpson's rule over the arc's angle with the speed law written out once more, as a second method.
double arcTimeByQuadrature(double radius, double centreRadius, double from, double turn,
                           const std::function<double(double)>& mmPerS) {
    const int n = 200000;
    const double h = turn / n;
    double sum = 0;
    for (int i = 0; i <= n; ++i) {
        const double weight = i == 0 || i == n ? 1 : (i % 2 ? 4 : 2);
        sum += weight / mmPerS(std::abs(centreRadius + radius * std::sin(from + h * i)));
    }
    return std::abs(h) / 3 * sum * radius;
}

// ---- feed ----

TEST(FeedTime, FacingAtConstantSurfaceSpeedWithClamp) {
    // Reference row ST10: D 100 to 0, vc 200, f 0.2, at most 2000 rev/min: 12.9746 s, printed to 0.0001 s.
    auto setup = openLathe();
    PathByHand path(constantSurfaceSpeed(200, 2000), 100, 0);
    path.feed(0, 0, 0.2);
    EXPECT_NEAR(cycleTime(path, setup), 12.9746, 5e-5);
}

TEST(FeedTime, PastTheCentreTheSpeedGrowsNoMore) {
    // To: 0.8 mm more at the clamp, 0.8 / (0.2 * 2000 / 60); elementary.
    auto setup = openLathe();
    PathByHand toCentre(constantSurfaceSpeed(200, 2000), 100, 0), past(constantSurfaceSpeed(200, 2000), 100, 0);
    toCentre.feed(0, 0, 0.2);
    past.feed(-1.6, 0, 0.2);
    EXPECT_NEAR(cycleTime(past, setup) - cycleTime(toCentre, setup), 0.12, 1e-9);
}

TEST(FeedTime, TheMachinesSpeedLimitClampsAsG50Does) {
    auto setup = openLathe();
    setup.machine.maxRevPerMin = 2000;
    PathByHand path(constantSurfaceSpeed(200, 0), 100, 0);
    path.feed(0, 0, 0.2);
    EXPECT_NEAR(cycleTime(path, setup), 12.9746, 5e-5);
}

TEST(FeedTime, TheFeedLimitActsOnlyWhereItIsReached) {
    // f 0.2 at 2000 rev/min would be 400 mm/min; a limit of 300 acts inside D 42.44, where 0.2 n = 300. By the same
    // formula with the clamp at 1500 rev/min.
    auto limited = openLathe();
    limited.machine.maxFeedMmPerMin = 300;
    PathByHand clampedFeed(constantSurfaceSpeed(200, 2000), 100, 0),
        clampedSpeed(constantSurfaceSpeed(200, 1500), 100, 0);
    clampedFeed.feed(0, 0, 0.2);
    clampedSpeed.feed(0, 0, 0.2);
    auto open = openLathe();
    EXPECT_NEAR(cycleTime(clampedFeed, limited), cycleTime(clampedSpeed, open), 1e-9);
}

TEST(FeedTime, SplitInTwoItTakesTheSameTime) {
    auto setup = openLathe();
    PathByHand whole(constantSurfaceSpeed(180, 2500), 90, 0), split(constantSurfaceSpeed(180, 2500), 90, 0);
    whole.feed(-2, -30, 0.25);
    split.feed(-2 + 92 * 0.37, -30 + 30 * 0.37, 0.25).feed(-2, -30, 0.25);
    EXPECT_NEAR(cycleTime(whole, setup), cycleTime(split, setup), 1e-9);
}

TEST(FeedTime, RadiusIsTheProgrammedOneWhateverToolAndWorkOffset) {
    auto setup = openLathe();
    PathByHand plain(constantSurfaceSpeed(200, 2000), 100, 0);
    plain.feed(20, 0, 0.2);
    PathByHand shifted(constantSurfaceSpeed(200, 2000), 100 + 120, 0);
    shifted.feed(20 + 120, 0, 0.2);
    shifted.path().calls[0].reckoned = {-70, -60};
    EXPECT_NEAR(cycleTime(plain, setup), cycleTime(shifted, setup), 1e-9);
}

TEST(FeedTime, CountsAsTimeAtFeedAndRapidDoesNot) {
    auto setup = openLathe();
    PathByHand path(constantRevPerMin(1000), 60, 2);
    path.feed(60, -98, 0.2).rapid(100, -98).rapid(100, 50);
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_NEAR(timeline.feedTimeS, 30, 1e-9);
    EXPECT_GT(timeline.cycleTimeS, 30);
}

// ---- arcs ----

struct ArcCase {
    const char* name;
    MoveKind kind;
    double xFrom, zFrom, xTo, zTo, xCentre, zCentre;
    double vc, clamp, feed;
};

void PrintTo(const ArcCase& c, std::ostream* out) {
    *out << c.name;
}

class ArcTime : public testing::TestWithParam<ArcCase> {};

// 1e-9 relative: Simpson over 200,000 steps of a law with kinks is that good, the closed form is better.
TEST_P(ArcTime, AgreesWithNumericalIntegration) {
    const ArcCase& c = GetParam();
    auto setup = openLathe();
    PathByHand path(constantSurfaceSpeed(c.vc, c.clamp), c.xFrom, c.zFrom);
    path.arc(c.kind, c.xTo, c.zTo, c.xCentre, c.zCentre, c.feed);
    const Timeline timeline = layOut(path.path(), setup);

    const Point from{c.zFrom, c.xFrom / 2}, to{c.zTo, c.xTo / 2}, centre{c.zCentre, c.xCentre / 2};
    const double angle0 = std::atan2(from.r - centre.r, from.z - centre.z);
    double turn = std::atan2(to.r - centre.r, to.z - centre.z) - angle0;
    if (c.kind == MoveKind::ArcClockwise && turn > 0) turn -= 2 * kPi;
    if (c.kind == MoveKind::ArcAnticlockwise && turn < 0) turn += 2 * kPi;
    const double expected = arcTimeByQuadrature(distance(from, centre), centre.r, angle0, turn, [&](double r) {
        return c.feed * std::min(c.clamp, 1000 * c.vc / (2 * kPi * std::max(r, 1e-12))) / 60;
    });
    EXPECT_NEAR(timeline.cycleTimeS, expected, 1e-8 * expected);
}

INSTANTIATE_TEST_SUITE_P(
    Arcs, ArcTime,
    testing::Values(
        ArcCase{"fillet beyond the knee", MoveKind::ArcClockwise, 40, -20, 50, -25, 50, -20, 200, 4000, 0.2},
        ArcCase{"round nose from the centre", MoveKind::ArcAnticlockwise, 0, 0, 60, -30, 0, -30, 150, 2000, 0.15},
        ArcCase{"small radius all clamped", MoveKind::ArcAnticlockwise, 10, 0, 14, -2, 10, -2, 200, 2000, 0.1},
        ArcCase{"crosses the axis", MoveKind::ArcAnticlockwise, -20, -10, 20, -10, 0, -10, 60, 1500, 0.2},
        ArcCase{"nearly half a turn in and out of the clamp", MoveKind::ArcClockwise, 60, 0, 59, -39.9, 59.5, -19.95,
                200, 1100, 0.2}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& ch : name) ch = ch == ' ' ? '_' : ch;
        return name;
    });

TEST(Arcs, RunOnTheirSideAndMeetTheirEnds) {
    auto setup = openLathe();
    PathByHand path(constantRevPerMin(1000), 40, -20);
    path.arc(MoveKind::ArcClockwise, 50, -25, 50, -20, 0.2);
    const Timeline timeline = layOut(path.path(), setup);
    const TimedMove& arc = timeline.moves[0];
    EXPECT_EQ(pointAt(arc, 0), (Point{-20, 20}));
    EXPECT_EQ(pointAt(arc, 1), (Point{-25, 25}));
    // Quarter circle about (-20, 25): its middle is centre + 5 at 225°; elementary geometry.
    const Point middle = pointAt(arc, 0.5);
    EXPECT_NEAR(middle.z, -20 - 5 * std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(middle.r, 25 - 5 * std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(timeline.cycleTimeS, 5 * kPi / 2 / 200 * 60, 1e-12);
}

// ---- rapids ----

TEST(Rapids, PerAxisIsADogLegOfBothAxesAndThenTheLonger) {
    auto setup = openLathe();  // X slide 18 m/min, Z 24 m/min
    PathByHand path(constantRevPerMin(1000), 200, 100);
    path.rapid(80, 0);  // 60 mm of slide: 0.2 s; 100 mm of Z: 0.25 s
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.moves.size(), 2u);
    EXPECT_NEAR(timeline.moves[0].t1, 0.2, 1e-12);
    EXPECT_NEAR(timeline.moves[0].to.r, 40, 1e-12);
    EXPECT_NEAR(timeline.moves[0].to.z, 20, 1e-12);
    EXPECT_NEAR(timeline.moves[1].t1, 0.25, 1e-12);
    EXPECT_EQ(timeline.moves[1].to, (Point{0, 40}));
    EXPECT_THAT(timeline.firstOf, testing::ElementsAre(0, 2));
}

TEST(Rapids, AlongOneAxisIsOneStretch) {
    auto setup = openLathe();
    PathByHand path(constantRevPerMin(1000), 200, 100);
    path.rapid(200, -100).home(440, -100);
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.moves.size(), 2u);
    EXPECT_NEAR(timeline.moves[0].t1, 0.5, 1e-12);
    EXPECT_NEAR(timeline.cycleTimeS, 0.5 + 0.4, 1e-12);
}

TEST(Rapids, StraightGoesAtThePaceOfTheSlowerAxis) {
    auto setup = openLathe();
    setup.machine.rapidPerAxis = false;
    PathByHand path(constantRevPerMin(1000), 200, 100);
    path.rapid(80, 0);
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.moves.size(), 1u);
    EXPECT_NEAR(timeline.cycleTimeS, 0.25, 1e-12);
}

TEST(Waiting, DwellAndIndexTakeTheTimeTheySay) {
    auto setup = openLathe();
    PathByHand path(constantRevPerMin(1000), 200, 100);
    path.wait(MoveKind::Index, 0.6).wait(MoveKind::Dwell, 1.5);
    EXPECT_NEAR(cycleTime(path, setup), 2.1, 1e-12);
}

// ---- from time to place ----

// A path with every law in it; fraction to time to fraction must come back. 1e-9: closed forms and a solved one.
TEST(TimeToPlace, FractionIsTheInverseOfTime) {
    auto setup = openLathe();
    PathByHand path(constantSurfaceSpeed(200, 2000), 100, 5);
    path.feed(100, 0, 0.3)
        .feed(-1.6, 0, 0.2)
        .rapid(30, 2)
        .feed(60, -20, 0.2)
        .arc(MoveKind::ArcClockwise, 80, -30, 80, -20, 0.1)
        .arc(MoveKind::ArcAnticlockwise, 20, -60, 20, -30, 0.1)
        .feed(20, -80, 0.2)
        .feed(20.000002, -90, 0.2)
        .wait(MoveKind::Dwell, 1)
        .home(300, 100);
    const Timeline timeline = layOut(path.path(), setup);
    for (const TimedMove& timed : timeline.moves) {
        for (double share : {0.0, 0.01, 0.25, 0.5, 0.77, 0.999, 1.0}) {
            // The part of the move up to `fraction`, laid out as a move of its own, must end at that time.
            const double time = timed.t0 + share * (timed.t1 - timed.t0);
            const double fraction = fractionAt(timed, path.path(), setup, time);
            ASSERT_GE(fraction, 0);
            ASSERT_LE(fraction, 1);
            if (timed.kind == MoveKind::Dwell || timed.kind == MoveKind::Rapid || timed.kind == MoveKind::Home) {
                EXPECT_NEAR(fraction, share, 1e-9);
                continue;
            }
            Toolpath part = path.path();
            Move move = part.moves[timed.move];
            move.to = pointAt(timed, fraction);
            if (distance(move.from, move.to) < 1e-6) continue;
            part.moves = {move};
            EXPECT_NEAR(layOut(part, setup).cycleTimeS, time - timed.t0, 1e-9 + 1e-9 * time)
                << timed.move << " " << share;
        }
    }
}

TEST(TimeToPlace, AtFindsTheMoveThatRuns) {
    auto setup = openLathe();
    PathByHand path(constantRevPerMin(1000), 60, 0);
    path.feed(60, -10, 0.2).wait(MoveKind::Dwell, 0).feed(60, -20, 0.2);
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_EQ(timeline.at(-1), 0u);
    EXPECT_EQ(timeline.at(0), 0u);
    EXPECT_EQ(timeline.at(2.9), 0u);
    EXPECT_EQ(timeline.at(3.0), 2u);  // the last one to start at or before it
    EXPECT_EQ(timeline.at(100), 2u);
}

TEST(SpindleSpeed, FollowsTheRadiusUpToTheClamp) {
    auto setup = openLathe();
    PathByHand path(constantSurfaceSpeed(200, 2000), 100, 0);
    path.feed(0, 0, 0.2);
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_NEAR(timeline.moves[0].rpmStart, 636.6198, 1e-4);  // 1000 * 200 / (pi * 100)
    EXPECT_NEAR(timeline.moves[0].rpmEnd, 2000, 1e-12);
    EXPECT_NEAR(revPerMinAt(timeline.moves[0], path.path(), setup, 0.5), 1273.2395, 1e-4);  // at D 50
}

TEST(SpindleSpeed, StoppedIsNought) {
    auto setup = openLathe();
    PathByHand path(ModalState{}, 100, 0);
    path.rapid(50, 0);
    EXPECT_EQ(layOut(path.path(), setup).moves[0].rpmStart, 0);
}

// ---- size ----

// Of the processor, not of the clock on the wall: test machines are shared. A tenth of this is what it takes.
TEST(Layout, AMillionMovesAreLaidOutQuickly) {
    auto setup = openLathe();
    PathByHand path(constantSurfaceSpeed(200, 2000), 100, 0);
    path.path().moves.reserve(1'000'000);
    for (int i = 1; i <= 1'000'000; ++i) path.feed(50 + 20 * std::sin(i * 1e-4), -0.01 * i / 10, 0.2);
    const std::clock_t begin = std::clock();
    const Timeline timeline = layOut(path.path(), setup);
    const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    RecordProperty("seconds", std::to_string(took));
    EXPECT_EQ(timeline.moves.size(), 1'000'000u);
    EXPECT_LT(took, 3);
}

}  // namespace
}  // namespace firstoff
