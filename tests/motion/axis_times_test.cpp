// Moves and chains of moves under the acceleration of the axes.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "sim/motion/feed_run.h"
#include "sim/motion/rapid_run.h"
#include "sim/motion/timeline.h"
#include "tests/motion/path_by_hand.h"

namespace firstoff {
namespace {

using shop::constantRevPerMin;
using shop::constantSurfaceSpeed;
using shop::PathByHand;

// X slide 18 m/min and 2 m/s2, Z 24 m/min and 4 m/s2.
firstoff::Setup acceleratingLathe() {
    firstoff::Setup setup = shop::openLathe();
    setup.machine.axes.accelerationR = 2000;
    setup.machine.axes.accelerationZ = 4000;
    return setup;
}

// ---- rapids ----

TEST(RapidTimes, AnAxisGainsAndLosesItsSpeed) {
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(constantRevPerMin(1000), 200, 200);
    path.rapid(200, 100);  // 100 mm at 400 mm/s and 4000 mm/s2: 100 / 400 + 400 / 4000
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, 0.35, 1e-12);
}

TEST(RapidTimes, TooShortForTheRapidItTurnsBack) {
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(constantRevPerMin(1000), 200, 200);
    path.rapid(200, 190);  // 2 sqrt(10 / 4000)
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, 2 * std::sqrt(10.0 / 4000), 1e-12);
}

TEST(RapidTimes, EveryAxisHasItsOwn) {
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(constantRevPerMin(1000), 200, 200);
    // X: 60 mm at 300 mm/s and 2000: 0.2 + 0.15 = 0.35 s. Z: 200 mm: 0.5 + 0.1 = 0.6 s. When X is there Z has gone
    // 400 * (0.35 - 0.05) = 120 mm.
    path.rapid(80, 0);
    const Timeline timeline = layOut(path.path(), setup);
    const std::size_t count = timeline.moves.size();
    ASSERT_GT(count, 2u);
    const TimedMove& intoElbow = timeline.moves[count - 2];
    EXPECT_NEAR(intoElbow.t1, 0.35, 1e-12);
    EXPECT_NEAR(intoElbow.to.z, 80, 1e-9);
    EXPECT_EQ(intoElbow.to.r, 40);
    EXPECT_NEAR(timeline.cycleTimeS, 0.6, 1e-12);
    EXPECT_NEAR(timeline.moves[count - 1].paceFrom, 400, 1e-3);
    EXPECT_EQ(timeline.moves[count - 1].paceTo, 0);
}

// The way told lies within kBendMm of the one that both axes take by themselves, from small to large rapids.
RC_GTEST_PROP(RapidTimes, TheWayOfADogLegIsThatOfItsAxes, ()) {
    firstoff::Setup setup = acceleratingLathe();
    setup.machine.axes.accelerationR = *rc::gen::element(500.0, 2000.0, 9000.0);
    if (*rc::gen::arbitrary<bool>()) {
        setup.machine.axes.jerkZ = *rc::gen::element(1e4, 1e5, 1e6);
        setup.machine.axes.jerkR = *rc::gen::element(1e4, 1e5, 1e6);
    }
    const double dx = *rc::gen::inRange(-20000, 20000) / 100.0, dz = *rc::gen::inRange(-30000, 30000) / 100.0;
    PathByHand path(constantRevPerMin(1000), 400, 400);
    path.rapid(400 + 2 * dx, 400 + dz);
    const Timeline timeline = layOut(path.path(), setup);
    const AxisDynamics& axes = setup.machine.axes;
    const SpeedProfile z(std::abs(dz), 0, 0, 400, {axes.accelerationZ, axes.jerkZ});
    const SpeedProfile r(std::abs(dx), 0, 0, 300, {axes.accelerationR, axes.jerkR});
    RC_ASSERT(std::abs(timeline.cycleTimeS - std::max(z.seconds(), r.seconds())) < 1e-12);
    for (int i = 0; i <= 500; ++i) {
        const double time = timeline.cycleTimeS * i / 500;
        const Point place{400 + std::copysign(time < z.seconds() ? z.wayAfter(time) : std::abs(dz), dz),
                          200 + std::copysign(time < r.seconds() ? r.wayAfter(time) : std::abs(dx), dx)};
        double nearest = 1e9;
        for (const TimedMove& timed : timeline.moves) {
            const Point way = timed.to - timed.from;
            const double part = std::clamp(dot(place - timed.from, way) / std::max(dot(way, way), 1e-30), 0.0, 1.0);
            nearest = std::min(nearest, distance(place, timed.from + part * way));
        }
        RC_ASSERT(nearest <= kBendMm * 1.001 + 1e-9);
    }
}

TEST(RapidTimes, StraightWithinWhatBothAxesHave) {
    firstoff::Setup setup = acceleratingLathe();
    setup.machine.rapidPerAxis = false;
    PathByHand path(constantRevPerMin(1000), 160, 200);
    // 60 in X, 80 in Z: 100 mm along; X lets 300 / 0.6 = 500 mm/s, Z 400 / 0.8 = 500; 2000 / 0.6 = 3333 mm/s2 from X.
    path.rapid(40, 120);
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, 100.0 / 500 + 500 / (2000 / 0.6), 1e-12);
}

TEST(RapidTimes, TheOverrideSlowsThem) {
    firstoff::Setup setup = acceleratingLathe();
    setup.overrides.rapid = 0.25;
    PathByHand path(constantRevPerMin(1000), 200, 200);
    path.rapid(200, 100);  // at 100 mm/s: 1 + 100 / 4000
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, 1.025, 1e-12);
}

// ---- feed ----

ModalState perMinute() {
    ModalState modal = constantRevPerMin(1000);
    modal.feedPerRev = false;
    return modal;
}

// Ends of feed moves at 6000 mm/min = 100 mm/s along Z with 4000 mm/s2: 2.5 % hundredths of a second a change.
TEST(FeedTimes, OneMoveStandsAtBothEnds) {
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(perMinute(), 50, 0);
    path.feed(50, -100, 6000);
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, 1.0 + 100.0 / 4000, 1e-9);
}

TEST(FeedTimes, SplitInTwoItFlowsThrough) {
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(perMinute(), 50, 0);
    path.feed(50, -40, 6000).feed(50, -100, 6000);
    // To the rounding of the pace at the joint, which a timed move holds with 24 bits.
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, 1.0 + 100.0 / 4000, 1e-7);
}

TEST(FeedTimes, ExactStopStandsBetween) {
    firstoff::Setup bySetup = acceleratingLathe();
    bySetup.machine.axes.blockEnd = AxisDynamics::BlockEnd::ExactStop;
    firstoff::Setup byProgram = acceleratingLathe();
    ModalState exact = perMinute();
    exact.exactStop = true;
    PathByHand a(perMinute(), 50, 0), b(exact, 50, 0);
    a.feed(50, -40, 6000).feed(50, -100, 6000);
    b.feed(50, -40, 6000).feed(50, -100, 6000);
    EXPECT_NEAR(layOut(a.path(), bySetup).cycleTimeS, 1.0 + 2 * 100.0 / 4000, 1e-9);
    EXPECT_NEAR(layOut(b.path(), byProgram).cycleTimeS, 1.0 + 2 * 100.0 / 4000, 1e-9);
}

TEST(FeedTimes, ACornerIsPassedAtThePaceTheJumpLets) {
    firstoff::Setup setup = acceleratingLathe();
    PathByHand path(perMinute(), 50, 0);
    path.feed(50, -50, 6000).feed(150, -50, 6000);  // from -Z into +X
    EXPECT_EQ(layOut(path.path(), setup).moves[0].paceTo, 0);
    setup.machine.axes.cornerJumpZ = 20;
    setup.machine.axes.cornerJumpR = 10;
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_FLOAT_EQ(timeline.moves[0].paceTo, 10);
    EXPECT_FLOAT_EQ(timeline.moves[1].paceFrom, 10);
}

TEST(FeedTimes, ASmoothJoinIsNoCorner) {
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(perMinute(), 50, 0);
    path.feed(50, -50, 6000).arc(MoveKind::ArcClockwise, 90, -70, 90, -50, 6000);  // tangent: from -Z into a fillet
    EXPECT_FLOAT_EQ(layOut(path.path(), setup).moves[0].paceTo, 100);
}

// v^2 / R within 1 / sqrt(2) of the weaker axis' acceleration: R 0.5, 2000 mm/s2: 26.6 mm/s.
TEST(FeedTimes, AnArcHoldsThePaceBack) {
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(perMinute(), 50, 0);
    path.feed(50, -50, 6000).arc(MoveKind::ArcClockwise, 51, -50.5, 51, -50, 6000).feed(150, -50.5, 6000);
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_NEAR(timeline.moves[0].paceTo, std::sqrt(kTowardsCentre * 2000 * 0.5), 1e-5);
    EXPECT_NEAR(timeline.moves[1].paceTo, std::sqrt(kTowardsCentre * 2000 * 0.5), 1e-5);
}

// Ten blocks of 0.1 mm at 100 mm/s: with all of them in sight it comes up to sqrt(4000 * 1) in the middle; seeing one
// block ahead it must be able to stand within 0.1 mm: sqrt(2 * 4000 * 0.1).
TEST(FeedTimes, ItGoesNoFasterThanItSees) {
    firstoff::Setup setup = acceleratingLathe();
    PathByHand path(perMinute(), 50, 0);
    for (int i = 1; i <= 10; ++i) path.feed(50, -0.1 * i, 6000);
    EXPECT_NEAR(layOut(path.path(), setup).moves[4].paceTo, std::sqrt(4000.0), 1e-4);
    setup.machine.axes.lookAhead = 1;
    EXPECT_NEAR(layOut(path.path(), setup).moves[4].paceTo, std::sqrt(2 * 4000 * 0.1), 1e-4);
}

TEST(FeedTimes, FacingUnderSurfaceSpeedIsExactBetweenTheChangesOfSpeed) {
    // ST10 with clamp, 12.9746 s at once; the slide comes to 2.122 mm/s at its start and from 6.667 mm/s at its end
    // with 2000 mm/s2: half of v / a each is lost.
    const firstoff::Setup setup = acceleratingLathe();
    PathByHand path(constantSurfaceSpeed(200, 2000), 100, 0);
    path.feed(0, 0, 0.2);
    const double start = 0.2 * 1000 * 200 / (M_PI * 100) / 60, end = 0.2 * 2000 / 60;
    const double atOnce = 12.9746;
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, atOnce + (start + end) / 2 / 2000, 6e-5);  // rounding of ST10
}

TEST(FeedTimes, TheFeedOverrideActsOnFeedAndNotOnThreads) {
    firstoff::Setup setup = shop::openLathe();
    setup.overrides.feed = 0.5;
    PathByHand path(constantRevPerMin(1000), 60, 2);
    path.feed(60, -98, 0.2);
    EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, 60, 1e-9);
    Toolpath thread = path.path();
    thread.moves[0].kind = MoveKind::Thread;
    thread.moves[0].feed = 0.2;
    thread.moves[0].extra = 0;
    thread.extras.push_back({});
    thread.extras[0].lead = 0.2;
    setup.overrides.spindle = 0.5;
    EXPECT_NEAR(layOut(thread, setup).cycleTimeS, 30, 1e-9);
}

// ---- random chains ----

struct Chain {
    PathByHand path;
    firstoff::Setup setup;
};

Chain randomChain() {
    firstoff::Setup setup = acceleratingLathe();
    if (*rc::gen::arbitrary<bool>()) {
        setup.machine.axes.jerkZ = *rc::gen::element(2e4, 1e5, 1e6);
        setup.machine.axes.jerkR = *rc::gen::element(2e4, 1e5, 1e6);
    }
    if (*rc::gen::arbitrary<bool>()) {
        setup.machine.axes.cornerJumpZ = *rc::gen::inRange(1, 30);
        setup.machine.axes.cornerJumpR = *rc::gen::inRange(1, 30);
    }
    setup.machine.axes.lookAhead = *rc::gen::element(0, 0, 1, 3);
    const bool surface = *rc::gen::arbitrary<bool>();
    Chain chain{PathByHand(surface ? constantSurfaceSpeed(150, 2500) : constantRevPerMin(1500), 60, 0), setup};
    double x = 60, z = 0;
    const int moves = *rc::gen::inRange(1, 12);
    for (int i = 0; i < moves; ++i) {
        const double dx = *rc::gen::inRange(-8000, 8000) / 1000.0, dz = *rc::gen::inRange(-8000, 8000) / 1000.0;
        const double feed = *rc::gen::inRange(5, 300) / 100.0;
        const int kind = *rc::gen::inRange(0, 5);
        x += dx;
        z += dz;
        if (kind == 0) {
            chain.path.rapid(x, z);
        } else if (kind == 1 && dx != 0) {
            // A quarter about a corner of the box that is its radius wide.
            z = z - dz + dx / 2;
            chain.path.arc(dx > 0 ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise, x, z, x - dx, z, feed);
        } else {
            chain.path.feed(x, z, feed);
        }
    }
    return chain;
}

// Fine steps of time over every timed move: the place runs without jumps and comes to the end, no axis is faster than
// it may or gains more than it has. The acceleration is the second difference of places known to 1e-12 mm over steps of
// 1e-4 s or more: good to 1e-3; what the change of surface speed itself asks for, and a float's rounding of the paces,
// stay within the hundredth allowed.
RC_GTEST_PROP(FeedTimes, RandomChainsKeepToTheLimits, ()) {
    const Chain chain = randomChain();
    Chain copy = chain;
    const Toolpath& path = copy.path.path();
    const Timeline timeline = layOut(path, chain.setup);
    const AxisDynamics& axes = chain.setup.machine.axes;
    double clock = 0;
    for (std::size_t i = 0; i < timeline.moves.size(); ++i) {
        const TimedMove& timed = timeline.moves[i];
        RC_ASSERT(timed.t0 == clock);
        clock = timed.t1;
        const double lasts = timed.t1 - timed.t0;
        if (lasts <= 0) continue;
        const int steps = std::max(20, std::min(4000, static_cast<int>(lasts / 1e-4)));
        const double step = lasts / steps;
        double before = 0;
        Point placeBefore = timed.from, speedBefore;
        for (int k = 1; k <= steps; ++k) {
            const double fraction = fractionAt(timed, path, chain.setup, k == steps ? timed.t1 : timed.t0 + k * step);
            RC_ASSERT(fraction >= before && fraction <= 1);
            const Point place = pointAt(timed, fraction);
            const Point speed = (1 / step) * (place - placeBefore);
            RC_ASSERT(std::abs(speed.z) <= 400 * 1.0001 && std::abs(speed.r) <= 300 * 1.0001);
            // The stretches of a dog-leg meet at small angles.
            if (k > 1 && step >= 1e-4 && timed.kind != MoveKind::Rapid) {
                const Point gain = (1 / step) * (speed - speedBefore);
                RC_ASSERT(std::abs(gain.z) <= axes.accelerationZ * 1.01 + 1);
                RC_ASSERT(std::abs(gain.r) <= axes.accelerationR * 1.01 + 1);
            }
            before = fraction;
            placeBefore = place;
            speedBefore = speed;
        }
        RC_ASSERT(before == 1);
        if (timed.kind == MoveKind::Rapid) continue;
        // Paces told at the ends are those of the path: a short step at either end.
        RC_ASSERT(timed.paceFrom >= 0 && timed.paceTo >= 0);
        const bool joins = i + 1 < timeline.moves.size() && timeline.moves[i + 1].kind != MoveKind::Rapid;
        RC_ASSERT(timed.paceTo == (joins ? timeline.moves[i + 1].paceFrom : 0));
    }
    RC_ASSERT(timeline.cycleTimeS == clock);
}

// The time is the integral of ds / v: a second reckoning from paces alone, over small parts of the way.
RC_GTEST_PROP(FeedTimes, TheTimeIsTheIntegralOverTheWay, ()) {
    firstoff::Setup setup = acceleratingLathe();
    if (*rc::gen::arbitrary<bool>()) setup.machine.axes.jerkZ = setup.machine.axes.jerkR = 5e4;
    const double x = *rc::gen::inRange(10, 80), z = -*rc::gen::inRange(1, 30);
    TimedMove timed;
    timed.kind = MoveKind::Feed;
    timed.from = {0, 30};
    timed.to = {z, x / 2};
    const PaceLaw law{*rc::gen::inRange(10, 80) * 1.0, *rc::gen::inRange(100, 2000) * 1.0};
    const FeedPath path(timed, {}, law, setup.machine.axes);
    const FeedRun run(path, 0, 0);
    double time = 0, before = 0;
    constexpr int kSteps = 4000;
    for (int i = 1; i <= kSteps; ++i) {
        const double now = i * run.seconds() / kSteps;
        const double fraction = run.fractionAfter(now);
        const double pace = run.paceAfter(now - run.seconds() / kSteps / 2);
        if (pace > 0) time += (fraction - before) * path.length() / pace;
        before = fraction;
        // Where a change with jerk comes upon a law that itself still rises, it runs ahead of it by the square of the
        // law's own gain over twice the jerk: up to (60 mm/s2)^2 / (2 * 5e4 mm/s3) of 40 mm/s here.
        RC_ASSERT(pace <= path.paceAt(run.fractionAfter(now - run.seconds() / kSteps / 2)) * (1 + 2e-3));
    }
    // Middle rule over 4000 steps; the kinks at the ends of the phases leave some 1e-4.
    RC_ASSERT(std::abs(time - run.seconds()) <= 1e-3 * run.seconds());
}

}  // namespace
}  // namespace firstoff
