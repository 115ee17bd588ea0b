// Keys of axes, spindle, other times and overrides.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/setup/setup.h"
#include "tests/setup/lathe_text.h"

namespace firstoff {
namespace {

using shop::latheText;

constexpr const char* kAxes =
    "acceleration_x_m_per_s2 = 3\nacceleration_z_m_per_s2 = 4\njerk_x_m_per_s3 = 60\njerk_z_m_per_s3 = 80\n"
    "block_end = \"exact-stop\"\ncorner_jump_x_mm_per_min = 120\ncorner_jump_z_mm_per_min = 300\n"
    "look_ahead_blocks = 40\n";
constexpr const char* kTables =
    "[spindle]\npower_kw = 15\nefficiency = 0.9\ncurve_rev_per_min = [0, 1200, 4500]\ncurve_torque_nm = [107, 107, "
    "29]\n"
    "inertia_kg_m2 = 0.22\nwaits_for_speed = false\n"
    "[times]\nchuck_s = 1.5\ntailstock_s = 3\ncoolant_s = 0.4\nm_code_s = 0.3\nnext_station_s = 0.15\n"
    "change_part_s = 25\n"
    "[overrides]\nfeed_percent = 80\nrapid_percent = 25\nspindle_percent = 110\n"
    "[[feed_hold]]\nline = 30\nseconds = 5\n[[feed_hold]]\nline = 12\nseconds = 2.5\n";

TEST(DriveKeys, AreRead) {
    const firstoff::Setup setup = readSetup(latheText("", kAxes) + kTables, "lathe.toml");
    for (const Finding& f : setup.findings) ADD_FAILURE() << f.code << " line " << f.span.line << ": " << f.message;
    const AxisDynamics& axes = setup.machine.axes;
    EXPECT_EQ(axes.accelerationR, 3000);
    EXPECT_EQ(axes.accelerationZ, 4000);
    EXPECT_EQ(axes.jerkR, 60000);
    EXPECT_EQ(axes.jerkZ, 80000);
    EXPECT_EQ(axes.blockEnd, AxisDynamics::BlockEnd::ExactStop);
    EXPECT_EQ(axes.cornerJumpR, 2);
    EXPECT_EQ(axes.cornerJumpZ, 5);
    EXPECT_EQ(axes.lookAhead, 40);
    const SpindleDrive& spindle = setup.machine.spindle;
    EXPECT_EQ(spindle.powerKw, 15);
    EXPECT_EQ(spindle.efficiency, 0.9);
    ASSERT_EQ(spindle.curve.size(), 3u);
    EXPECT_EQ(spindle.curve[2].revPerMin, 4500);
    EXPECT_EQ(spindle.curve[2].torqueNm, 29);
    EXPECT_EQ(spindle.inertiaKgM2, 0.22);
    EXPECT_FALSE(spindle.waitsForSpeed);
    const OtherTimes& times = setup.machine.times;
    EXPECT_EQ(times.chuckS, 1.5);
    EXPECT_EQ(times.tailstockS, 3);
    EXPECT_EQ(times.coolantS, 0.4);
    EXPECT_EQ(times.machineCodeS, 0.3);
    EXPECT_EQ(times.nextStationS, 0.15);
    EXPECT_EQ(times.changePartS, 25);
    EXPECT_EQ(setup.overrides.feed, 0.8);
    EXPECT_EQ(setup.overrides.rapid, 0.25);
    EXPECT_EQ(setup.overrides.spindle, 1.1);
    ASSERT_EQ(setup.overrides.holds.size(), 2u);
    EXPECT_EQ(setup.overrides.holds[0].line, 12u);
    EXPECT_EQ(setup.overrides.holds[1].seconds, 5);
}

TEST(DriveKeys, WithoutThemNothingIsKnownAndNothingSlowed) {
    const firstoff::Setup setup = readSetup(latheText(), "lathe.toml");
    EXPECT_TRUE(setup.findings.empty());
    EXPECT_FALSE(setup.machine.axes.known());
    EXPECT_TRUE(setup.machine.spindle.curve.empty());
    EXPECT_TRUE(setup.machine.spindle.waitsForSpeed);
    EXPECT_EQ(setup.overrides.feed, 1);
    EXPECT_EQ(setup.overrides.rapid, 1);
    EXPECT_EQ(setup.overrides.spindle, 1);
}

struct Row {
    const char* name;
    const char* machine;
    const char* tables;
    const char* code;
    const char* words;
};

TEST(DriveKeys, WhatContradictsIsSaid) {
    const Row rows[] = {
        {"one axis only", "acceleration_x_m_per_s2 = 3\n", "", "setup-missing-key", "without acceleration_z"},
        {"jerk of one axis", "acceleration_x_m_per_s2 = 3\nacceleration_z_m_per_s2 = 3\njerk_z_m_per_s3 = 60\n", "",
         "setup-missing-key", "without jerk_x"},
        {"look-ahead without acceleration", "look_ahead_blocks = 5\n", "", "setup-missing-key", "without the accel"},
        {"curve uneven", "", "[spindle]\ncurve_rev_per_min = [0, 100]\ncurve_torque_nm = [5]\n", "setup-spindle-curve",
         "2 speeds and 1 torques"},
        {"curve falling", "", "[spindle]\ncurve_rev_per_min = [100, 50]\ncurve_torque_nm = [5, 5]\n",
         "setup-spindle-curve", "must rise"},
        {"run-up twice", "", "[spindle]\ninertia_kg_m2 = 1\nrun_up_s = 3\n", "setup-spindle-run-up", "said twice"},
        {"an override of nothing", "", "[overrides]\nfeed_percent = 0\n", "setup-out-of-range", ""},
        {"a hold without line", "", "[[feed_hold]]\nseconds = 3\n", "setup-missing-key", "line"},
        {"a hold in single brackets", "", "[feed_hold]\nline = 3\nseconds = 3\n", "setup-wrong-type", "two"},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.name);
        const firstoff::Setup setup = readSetup(latheText("", row.machine) + row.tables, "lathe.toml");
        ASSERT_EQ(setup.findings.size(), 1u);
        EXPECT_EQ(setup.findings[0].code, row.code);
        EXPECT_EQ(setup.findings[0].severity, Severity::Stop);
        EXPECT_THAT(setup.findings[0].message, testing::HasSubstr(row.words));
        EXPECT_FALSE(setup.findings[0].remedy.empty());
    }
}

}  // namespace
}  // namespace firstoff
