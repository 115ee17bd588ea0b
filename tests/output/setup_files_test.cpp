// Machine and tool files beside a set-up on disk.
#include "sim/output/setup_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "tests/cli/command_run.h"

namespace firstoff {
namespace {

using shop::Bench;

TEST(SetupFiles, StandWhereTheSetUpIs) {
    const Bench bench;
    bench.put("m.toml", "[machine]\n");
    std::filesystem::create_directory(bench.path("jobs"));
    const ReadSetupFile fromJobs = setupFilesBeside(bench.path("jobs/job.toml"));
    EXPECT_EQ(fromJobs("../m.toml"), "[machine]\n");
    EXPECT_EQ(fromJobs(bench.path("m.toml")), "[machine]\n");
    EXPECT_EQ(fromJobs("m.toml"), std::nullopt);
}

TEST(SetupFiles, WhatIsNoFileIsNotRead) {
    const Bench bench;
    bench.put("huge.toml", std::string((1u << 20) + 1, '#'));
    bench.put("large.toml", std::string(1u << 20, '#'));
    const ReadSetupFile beside = setupFilesBeside(bench.path("job.toml"));
    for (const char* name : {".", "/dev/zero", "missing.toml", "huge.toml", "missing/../m.toml"}) {
        EXPECT_EQ(beside(name), std::nullopt) << name;
    }
    EXPECT_TRUE(beside("large.toml"));
}

TEST(SetupFiles, OfASetUpThatWasNeverSavedCannotBeHad) {
    const Bench bench;
    bench.put("m.toml", "[machine]\n");
    EXPECT_EQ(setupFilesBeside({})("m.toml"), std::nullopt);
}

// The same job with its machine in the set-up and in a file: the command says the same.
TEST(SetupFiles, TheCommandReadsThem) {
    const Bench bench;
    bench.put("idle.nc", "O1\nG28 U0 W0\nM30\n");
    bench.put("m.toml",
              "[machine]\nhome_x_mm = 400\nhome_z_mm = 500\ntravel_x_mm = [-420, 0]\ntravel_z_mm = [-480, 0]\n"
              "rapid_x_mm_per_min = 18000\nrapid_z_mm_per_min = 24000\nmax_feed_mm_per_min = 5000\n"
              "max_rev_per_min = 4500\nindex_time_s = 0.6\nstations = 12\nturret_diameter_mm = 300\n"
              "turret_thickness_mm = 90\n[chuck]\nbody_diameter_mm = 165\nbody_length_mm = 80\njaw_length_mm = 30\n"
              "jaw_outer_diameter_mm = 160\n");
    const std::string job =
        "[stock]\nshape = \"bar\"\ndiameter_mm = 50\nlength_mm = 110\nstick_out_mm = 70\n"
        "[work_offsets.G54]\nz_from_bar_end_mm = 0\n";
    bench.put("idle.toml", "machine_file = \"m.toml\"\n" + job);
    const auto taken = shop::firstoff("check " + bench.path("idle.nc"));
    EXPECT_THAT(taken.out, testing::Not(testing::HasSubstr("setup-")));
    bench.put("idle.toml", "machine_file = \"n.toml\"\n" + job);
    const auto missing = shop::firstoff("check " + bench.path("idle.nc"));
    EXPECT_THAT(missing.out, testing::HasSubstr("setup-library-file"));
    EXPECT_NE(missing.exitCode, 0);
}

}  // namespace
}  // namespace firstoff
