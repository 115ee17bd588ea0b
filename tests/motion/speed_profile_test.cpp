// Changes of speed against the closed forms of the books and against fine steps of time.
#include "sim/motion/speed_profile.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace firstoff {
namespace {

// Elementary kinematics; every row worked by hand.
struct ChangeRow {
    const char* name;
    double from, to, acceleration, jerk;
    double seconds, way;
};

TEST(SpeedChange, ClosedForms) {
    const ChangeRow rows[] = {
        {"evenly: 100 mm/s at 2000 mm/s2", 0, 100, 2000, 0, 0.05, 2.5},
        {"and back", 100, 0, 2000, 0, 0.05, 2.5},
        {"from a pace to another", 40, 100, 2000, 0, 0.03, 2.1},
        // a^2 / j = 40: the acceleration is reached: 100 / 2000 + 2000 / 100000
        {"with jerk, reaching the acceleration", 0, 100, 2000, 100000, 0.07, 3.5},
        // below 40: 2 sqrt(10 / 100000)
        {"with jerk, not reaching it", 0, 10, 2000, 100000, 0.02, 0.1},
        {"exactly where both meet", 0, 40, 2000, 100000, 0.04, 0.8},
        {"none", 50, 50, 2000, 100000, 0, 0},
    };
    for (const ChangeRow& row : rows) {
        const PathDynamics d{row.acceleration, row.jerk};
        EXPECT_NEAR(secondsOfChange(row.from, row.to, d), row.seconds, 1e-12) << row.name;
        EXPECT_NEAR(wayOfChange(row.from, row.to, d), row.way, 1e-12) << row.name;
    }
}

struct ProfileRow {
    const char* name;
    double length, from, to, most, acceleration, jerk;
    double seconds, peak;
};

TEST(SpeedProfile, ClosedForms) {
    const ProfileRow rows[] = {
        // Trapezoid: length / most + most / acceleration.
        {"trapezoid", 100, 0, 0, 200, 2000, 0, 0.6, 200},
        // Triangle: 2 sqrt(length / acceleration), peak sqrt(length * acceleration).
        {"too short to reach its pace", 8, 0, 0, 200, 2000, 0, 2 * std::sqrt(8.0 / 2000), std::sqrt(16000.0)},
        {"enters running", 50, 100, 0, 100, 2000, 0, 47.5 / 100 + 0.05, 100},
        // S-curve, all phases: length / most + most / acceleration + acceleration / jerk.
        {"S-curve", 100, 0, 0, 200, 2000, 20000, 0.5 + 0.1 + 0.1, 200},
        // S-curve too short for the acceleration: four equal phases t with 2 j t^3 = length.
        {"short S-curve", 2 * 20000 * 1e-6, 0, 0, 200, 2000, 20000, 0.04, 20000 * 1e-4},
        {"at once", 100, 0, 0, 200, 0, 0, 0.5, 200},
    };
    for (const ProfileRow& row : rows) {
        const SpeedProfile p(row.length, row.from, row.to, row.most, {row.acceleration, row.jerk});
        EXPECT_NEAR(p.seconds(), row.seconds, 1e-12) << row.name;
        EXPECT_NEAR(p.peak(), row.peak, 1e-9 * row.peak) << row.name;
    }
}

RC_GTEST_PROP(SpeedChange, WhatIsWithinReachTakesExactlyTheWay, ()) {
    const double pace = *rc::gen::inRange(0, 50000) / 100.0;
    const double way = *rc::gen::inRange(1, 1000000) / 1000.0;
    const double a = *rc::gen::inRange(100, 20000);
    const double j = *rc::gen::element(0.0, 2e3, 5e4, 1e6, 1e8);
    const double reached = paceWithinReach(pace, way, {a, j});
    RC_ASSERT(reached > pace);
    // The way falls by some 1e-12 of itself where a small change is the difference of two paces.
    RC_ASSERT(std::abs(wayOfChange(pace, reached, {a, j}) - way) <= 1e-9 * way);
}

// The second method: small steps of time, with the derivatives held to the limits. A step of 1/20000 of the time makes
// the trapezoid rule good to a millionth of the length.
RC_GTEST_PROP(SpeedProfile, IsTheIntegralOfItsPaceWithinItsLimits, ()) {
    const double a = *rc::gen::inRange(200, 12000);
    const double j = *rc::gen::element(0.0, 5e3, 5e4, 1e6);
    const double length = *rc::gen::inRange(1, 300000) / 1000.0;
    const double from = *rc::gen::inRange(0, 30000) / 100.0;
    const PathDynamics d{a, j};
    const double reach = paceWithinReach(from, length, d);
    const double low = from > 0 && paceWithinReach(0, length, d) < from ? from : 0;  // else it can come to a stand
    const double to = low + (reach - low) * *rc::gen::inRange(0, 1000) / 1000.0;
    const double most = std::max({from, to, *rc::gen::inRange(1, 60000) / 100.0});
    const SpeedProfile p(length, from, to, most, d);
    constexpr int kSteps = 20000;
    const double step = p.seconds() / kSteps;
    double way = 0, before = from, gainBefore = 0;
    for (int i = 1; i <= kSteps; ++i) {
        const double time = i == kSteps ? p.seconds() : i * step;
        const double pace = p.paceAfter(time);
        RC_ASSERT(pace <= most * (1 + 1e-9) && pace >= -1e-9);
        const double gain = (pace - before) / step;
        RC_ASSERT(std::abs(gain) <= a * (1 + 1e-6) + 1e-6);
        if (j > 0) RC_ASSERT(std::abs(gain - gainBefore) <= 2 * j * step * (1 + 1e-6) + 1e-5 * a);
        way += (pace + before) / 2 * step;
        RC_ASSERT(std::abs(p.wayAfter(time) - way) <= 2e-6 * length + 1e-9);
        // And back from the way to the time, of which halving leaves nothing that a way could tell.
        if (i % 500 == 0) RC_ASSERT(std::abs(p.wayAfter(p.secondsTo(p.wayAfter(time))) - p.wayAfter(time)) <= 1e-9);
        before = pace;
        gainBefore = gain;
    }
    RC_ASSERT(std::abs(way - length) <= 2e-6 * length);
    RC_ASSERT(std::abs(before - to) <= 1e-6 * (1 + to));
}

}  // namespace
}  // namespace firstoff
