// Run-up of the spindle, what waits for it, feed holds, index by stations.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "sim/motion/spindle_run_up.h"
#include "sim/motion/timeline.h"
#include "tests/motion/path_by_hand.h"

namespace firstoff {
namespace {

using shop::constantRevPerMin;
using shop::constantSurfaceSpeed;
using shop::PathByHand;

// 4000 rev/min in 4 s: a second for each thousand.
firstoff::Setup runUpLathe() {
    firstoff::Setup setup = shop::openLathe();
    setup.machine.maxRevPerMin = 4000;
    setup.machine.spindle.runUpS = 4;
    return setup;
}

// ---- run-up ----

TEST(SpindleRunUp, AConstantTorqueIsTheBooksFormula) {
    // J w / M: 0.5 kg m2 to 3000 rev/min with 100 N m: 0.5 * 314.159 / 100.
    firstoff::Setup setup = shop::openLathe();
    setup.machine.spindle.inertiaKgM2 = 0.5;
    setup.machine.spindle.curve = {{0, 100}, {4000, 100}};
    const SpindleRunUp drive(setup);
    EXPECT_NEAR(drive.secondsTo(3000), 0.5 * 2 * kPi * 3000 / 60 / 100, 1e-12);
    EXPECT_NEAR(drive.revPerMinAfter(drive.secondsTo(3000)), 3000, 1e-9);
}

// A curve with slopes and ends, by Simpson's rule as the second method.
TEST(SpindleRunUp, ACurveIsIntegrated) {
    firstoff::Setup setup = shop::openLathe();
    setup.machine.spindle.inertiaKgM2 = 0.4;
    setup.machine.spindle.curve = {{200, 120}, {1000, 120}, {4000, 30}};
    const SpindleRunUp drive(setup);
    const auto torque = [](double n) { return n <= 1000 ? 120 : n < 4000 ? 120 - (n - 1000) * 0.03 : 30; };
    for (double n : {100.0, 200.0, 700.0, 1000.0, 2500.0, 4000.0, 4500.0}) {
        constexpr int kSteps = 9000;  // a kink at 1000 and at 4000 falls between two steps: good to 1e-6
        double sum = 0;
        for (int i = 0; i <= kSteps; ++i) {
            sum += (i == 0 || i == kSteps ? 1 : i % 2 ? 4 : 2) / torque(n * i / kSteps);
        }
        EXPECT_NEAR(drive.secondsTo(n), 0.4 * 2 * kPi / 60 * n / kSteps / 3 * sum, 1e-6) << n;
        EXPECT_NEAR(drive.revPerMinAfter(drive.secondsTo(n)), n, 1e-8) << n;
        const double h = 1e-3;
        EXPECT_NEAR(drive.gainAt(n), 2 * h / (drive.secondsTo(n + h) - drive.secondsTo(n - h)), 0.05) << n;
    }
}

TEST(SpindleRunUp, TheBarCountsWhereItsDensityIsKnown) {
    // Steel 7.85 kg/dm3, D 100, 200 long: 12.331 kg, m r^2 / 2 = 0.015414 kg m2.
    firstoff::Setup setup = shop::openLathe();
    setup.stock.outerRadius = 50;
    setup.stock.boreRadius = 0;
    setup.stock.backZ = -50;
    setup.stock.frontZ = 150;
    EXPECT_EQ(inertiaOfBlank(setup), 0);
    setup.material.densityKgPerDm3 = 7.85;
    EXPECT_NEAR(inertiaOfBlank(setup), 0.0154134, 1e-6);
    setup.machine.spindle.inertiaKgM2 = 0.0154134;
    setup.machine.spindle.curve = {{0, 10}};
    firstoff::Setup without = setup;
    without.material.densityKgPerDm3 = 0;
    EXPECT_NEAR(SpindleRunUp(setup).secondsTo(1000) / SpindleRunUp(without).secondsTo(1000), 2, 1e-4);
}

TEST(SpindleRunUp, InertiaAloneSaysNothing) {
    firstoff::Setup setup = shop::openLathe();
    setup.machine.spindle.inertiaKgM2 = 0.5;
    setup.machine.spindle.powerKw = 10;
    EXPECT_FALSE(SpindleRunUp(setup).known());
}

// ---- waiting ----

TEST(WaitForTheSpindle, TheFeedWaitsUntilItTurns) {
    const firstoff::Setup setup = runUpLathe();
    PathByHand path(constantRevPerMin(2000), 60, 2);
    path.feed(60, -98, 0.2);  // 100 mm at 400 mm/min: 15 s
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.moves.size(), 2u);
    const TimedMove& wait = timeline.moves[0];
    EXPECT_EQ(wait.wait, TimedMove::Wait::SpindleSpeed);
    EXPECT_EQ(wait.kind, MoveKind::Dwell);
    EXPECT_EQ(wait.from, wait.to);
    EXPECT_EQ(wait.move, 0u);
    EXPECT_NEAR(wait.t1, 2, 1e-12);
    EXPECT_EQ(wait.rpmStart, 0);
    EXPECT_EQ(wait.rpmEnd, 2000);
    EXPECT_NEAR(revPerMinAt(wait, path.path(), setup, 0.25), 500, 1e-9);
    EXPECT_NEAR(timeline.cycleTimeS, 17, 1e-9);
    EXPECT_NEAR(timeline.feedTimeS, 15, 1e-9);
    EXPECT_EQ(timeline.workOf(0), 1u);
}

TEST(WaitForTheSpindle, OnlyWhatIsLeftOverIsWaitedFor) {
    const firstoff::Setup setup = runUpLathe();
    PathByHand path(constantRevPerMin(2000), 300, 200);
    path.wait(MoveKind::Index, 0.6).rapid(300, 0).feed(300, -100, 0.2);  // rapid: 200 mm at 24 m/min, 0.5 s
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_NEAR(timeline.moves[0].rpmEnd, 600, 1e-9);
    EXPECT_NEAR(timeline.moves[1].rpmEnd, 1100, 1e-9);
    EXPECT_NEAR(timeline.moves[2].t1 - timeline.moves[2].t0, 2 - 1.1, 1e-12);
    EXPECT_NEAR(timeline.cycleTimeS, 2 + 15, 1e-9);
}

TEST(WaitForTheSpindle, SaidNotToWaitItDoesNot) {
    firstoff::Setup setup = runUpLathe();
    setup.machine.spindle.waitsForSpeed = false;
    PathByHand path(constantRevPerMin(2000), 60, 2);
    path.feed(60, -98, 0.2);
    EXPECT_EQ(layOut(path.path(), setup).moves.size(), 1u);
}

TEST(WaitForTheSpindle, TurningOverGoesThroughStandingStill) {
    const firstoff::Setup setup = runUpLathe();
    PathByHand path(constantRevPerMin(1000), 60, 2);
    path.feed(60, -8, 0.2).feed(60, -18, 0.2);
    ModalState reverse = constantRevPerMin(1000);
    reverse.spindle = SpindleDirection::Reverse;
    path.path().modals.push_back(reverse);
    path.path().moves[1].modal = 1;
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.moves.size(), 5u);
    EXPECT_EQ(timeline.moves[2].rpmEnd, 0);
    EXPECT_EQ(timeline.moves[3].rpmStart, 0);
    EXPECT_NEAR(timeline.moves[3].t1 - timeline.moves[2].t0, 2, 1e-12);
    EXPECT_EQ(timeline.workOf(1), 4u);
}

TEST(WaitForTheSpindle, SpeedIsContinuousInTime) {
    firstoff::Setup setup = runUpLathe();
    setup.machine.axes.accelerationR = setup.machine.axes.accelerationZ = 3000;
    PathByHand path(constantSurfaceSpeed(180, 3000), 100, 50);
    path.rapid(70, 2).feed(-1, 2, 0.2).rapid(80, 5).feed(80, -20, 0.25).wait(MoveKind::Dwell, 0.3).home(300, 100);
    const Timeline timeline = layOut(path.path(), setup);
    double before = 0;
    for (const TimedMove& timed : timeline.moves) {
        EXPECT_NEAR(timed.rpmStart, before, 1e-6 * (1 + before)) << timed.move;
        for (double share : {0.0, 0.3, 0.999999, 1.0}) {
            const double rpm = revPerMinAt(timed, path.path(), setup, share);
            if (share == 0) {
                EXPECT_NEAR(rpm, timed.rpmStart, 1e-6 * (1 + rpm));
            }
            if (share == 1) {
                EXPECT_NEAR(rpm, timed.rpmEnd, 1e-6 * (1 + rpm));
            }
        }
        before = timed.rpmEnd;
    }
}

TEST(WaitForTheSpindle, FlowingFeedStandsWhereTheSpeedChanges) {
    firstoff::Setup setup = runUpLathe();
    setup.machine.axes.accelerationR = setup.machine.axes.accelerationZ = 3000;
    PathByHand path(constantRevPerMin(1000), 60, 2);
    path.feed(60, -8, 0.2).feed(60, -18, 0.2);
    path.path().modals.push_back(constantRevPerMin(1500));
    path.path().moves[1].modal = 1;
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_EQ(timeline.moves[1].paceTo, 0);
    EXPECT_NEAR(timeline.moves[2].t1 - timeline.moves[2].t0, 0.5, 1e-9);
}

// ---- surface speed that the drive does not follow ----

TEST(SurfaceSpeedLag, IsANoteWithFigures) {
    firstoff::Setup setup = runUpLathe();
    setup.machine.spindle.runUpS = 40;  // 100 rev/min a second
    PathByHand path(constantSurfaceSpeed(200, 4000), 100, 0);
    path.feed(0, 0, 0.3);
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.findings.size(), 1u);
    EXPECT_EQ(timeline.findings[0].code, "surface-speed-not-reached");
    EXPECT_EQ(timeline.findings[0].severity, Severity::Note);
    EXPECT_EQ(timeline.findings[0].values[0].second, 200);
    EXPECT_LT(timeline.findings[0].values[1].second, 180);
    EXPECT_GT(timeline.findings[0].values[1].second, 20);
    setup.machine.spindle.runUpS = 0.4;
    EXPECT_TRUE(layOut(path.path(), setup).findings.empty());
}

// A second method, in small steps of time: the spindle gains 100 rev/min a second at most, and each of its turns takes
// the tool 0.3 mm on.
double secondsOfFacing(double radiusFrom, double radiusTo, double gain) {
    constexpr double kStepS = 1e-4;
    const auto asked = [](double r) { return std::min(4000.0, 200e3 / (2 * kPi * r)); };
    double r = radiusFrom, n = asked(r), time = 0;
    for (; r > radiusTo; time += kStepS) {
        r -= 0.3 * n / 60 * kStepS;
        n = std::min(asked(r), n + gain * kStepS);
    }
    return time;
}

TEST(SurfaceSpeedLag, TellsTheTimeThatItCosts) {
    firstoff::Setup setup = runUpLathe();
    setup.machine.spindle.runUpS = 40;
    const auto facing = [&](bool perRev) {
        ModalState modal = constantSurfaceSpeed(200, 4000);
        modal.feedPerRev = perRev;
        PathByHand path(modal, 100, 0);
        path.feed(10, 0, perRev ? 0.3 : 300);
        return layOut(path.path(), setup);
    };
    const Timeline timeline = facing(true);
    ASSERT_FALSE(timeline.findings.empty());
    const double lag = secondsOfFacing(50, 5, 100) - secondsOfFacing(50, 5, 1e9);
    EXPECT_GT(lag, 0.5);
    // 500 steps along the way, each by the speed at its beginning.
    EXPECT_NEAR(timeline.lagS, lag, 0.01 * lag);
    EXPECT_NEAR(timeline.findings[0].values[3].second, timeline.lagS, 1e-12) << "longer_s, of the only pass";
    EXPECT_EQ(facing(false).lagS, 0) << "feed per minute does not wait for the spindle";
    EXPECT_EQ(facing(false).findings.at(0).message.find("cycle time"), std::string::npos);
}

// ---- what else takes time ----

TEST(FeedHolds, ComeOnceBeforeTheFirstMoveOfTheirLine) {
    firstoff::Setup setup = shop::openLathe();
    setup.overrides.holds = {{2, 3.5, {}}};
    PathByHand path(constantRevPerMin(1000), 60, 2);
    path.feed(60, -8, 0.2).feed(60, -18, 0.2).inBlock(1).feed(60, -28, 0.2).inBlock(1);
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.moves.size(), 4u);
    EXPECT_EQ(timeline.moves[1].wait, TimedMove::Wait::FeedHold);
    EXPECT_NEAR(timeline.moves[1].t1 - timeline.moves[1].t0, 3.5, 1e-12);
    EXPECT_EQ(timeline.moves[1].rpmEnd, 1000);
    EXPECT_NEAR(timeline.cycleTimeS, 9 + 3.5, 1e-9);
}

TEST(FeedHolds, TheAxesStandForThem) {
    firstoff::Setup setup = shop::openLathe();
    setup.machine.axes.accelerationR = setup.machine.axes.accelerationZ = 3000;
    PathByHand path(constantRevPerMin(1000), 60, 2);
    path.feed(60, -8, 0.2).feed(60, -18, 0.2);
    EXPECT_GT(layOut(path.path(), setup).moves[0].paceTo, 3);
    setup.overrides.holds = {{2, 3.5, {}}};
    EXPECT_EQ(layOut(path.path(), setup).moves[0].paceTo, 0);
}

TEST(SpindleOverride, TurnsTheSpindleAndWithItTheFeed) {
    firstoff::Setup setup = shop::openLathe();
    setup.overrides.spindle = 1.2;
    PathByHand path(constantRevPerMin(1000), 60, 2);
    path.feed(60, -98, 0.2);
    const Timeline timeline = layOut(path.path(), setup);
    EXPECT_NEAR(timeline.moves[0].rpmStart, 1200, 1e-9);
    EXPECT_NEAR(timeline.cycleTimeS, 25, 1e-9);
}

TEST(Index, EveryStationPastTheFirstTakesItsTime) {
    firstoff::Setup setup = shop::openLathe();
    setup.machine.stations = 12;
    setup.machine.times.nextStationS = 0.2;
    struct Row {
        int from, to;
        double seconds;
    };
    for (const Row& row : {Row{1, 2, 0.6}, Row{1, 4, 1.0}, Row{1, 11, 0.8}, Row{1, 7, 1.6}}) {
        PathByHand path(constantRevPerMin(1000), 60, 2);
        path.wait(MoveKind::Index, 0.6);
        path.path().calls.resize(2);
        path.path().calls[0].station = row.from;
        path.path().calls[1].station = row.to;
        path.path().moves[0].call = 1;
        EXPECT_NEAR(layOut(path.path(), setup).cycleTimeS, row.seconds, 1e-12) << row.to;
    }
}

}  // namespace
}  // namespace firstoff
