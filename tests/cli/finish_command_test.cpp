// `firstoff finish` as a shell and a script see it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <string>

#include "tests/cli/command_run.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::CommandRun;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

const std::string kSpigot = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/coupling-spigot.nc";

TEST(FinishCommand, TellsRoughnessAndCutOffOfALine) {
    const CommandRun run = shop::firstoff("finish " + kSpigot + " --line 21");
    EXPECT_EQ(run.exitCode, 0) << run.err;
    EXPECT_THAT(run.err, IsEmpty());
    EXPECT_THAT(run.out, StartsWith("1. outside, Z-1.001 to Z-14.937 (piece 1)\n"));
    for (const char* part : {"T3; line 21", "feed 0.12 mm per revolution", "nose radius 0.4 mm", "Ra 1.", "Rz 4.",
                             "cut-off 0.25 mm, 5 sections", "nose formulas", "4.500 (f²/8r)", "4.526 (circle)"}) {
        EXPECT_THAT(run.out, HasSubstr(part));
    }
}

TEST(FinishCommand, WritesTheProfile) {
    const Bench bench;
    const std::string csv = bench.path("profile.csv");
    const CommandRun run = shop::firstoff("finish " + kSpigot + " --z-from -5 --z-to -12 --out " + csv);
    EXPECT_EQ(run.exitCode, 0) << run.err;
    const std::string text = bench.contents("profile.csv");
    EXPECT_THAT(text, StartsWith("surface,along_mm,z_mm,r_mm,height_um\n1,"));
    // Seven cut-offs of 0.25 mm in steps of a 400th of 0.12 mm.
    EXPECT_NEAR(static_cast<double>(std::count(text.begin(), text.end(), '\n')), 1.75 / 0.0003, 5);
}

TEST(FinishCommand, DrawsTheProfile) {
    const Bench bench;
    const CommandRun run = shop::firstoff("finish " + kSpigot + " --line 21 --out " + bench.path("profile.SVG"));
    EXPECT_EQ(run.exitCode, 0) << run.err;
    const std::string svg = bench.contents("profile.SVG");
    EXPECT_THAT(svg, StartsWith("<?xml"));
    // The figures of the table.
    for (const char* name : {"Ra ", "Rz ", "Rt "}) {
        const std::string figure = run.out.substr(run.out.find(name), 8);  // "Ra 1.095"
        EXPECT_THAT(svg, HasSubstr(figure + " µm"));
    }
    EXPECT_THAT(svg, HasSubstr("N220 Z-15. (SPIGOT D25)"));
}

TEST(FinishCommand, RefusesOtherEndingsBeforeTheTrial) {
    for (const char* name : {"profile.pdf", "profile", "svg", "profile.svg.txt"}) {
        const Bench bench;
        const CommandRun run = shop::firstoff("finish " + kSpigot + " --line 21 --out " + bench.path(name));
        EXPECT_EQ(run.exitCode, 2) << name;
        EXPECT_THAT(run.err, HasSubstr("csv, svg")) << name;
        EXPECT_THAT(run.out, IsEmpty()) << name;
    }
}

TEST(FinishCommand, TakesFacesAndBores) {
    const CommandRun face = shop::firstoff("finish " + kSpigot + " --face-z -43 --x-from 42 --x-to 45");
    EXPECT_EQ(face.exitCode, 0) << face.err;
    EXPECT_THAT(face.out, StartsWith("1. face at Z-43.000, X42.000 to X45.000"));
    const std::string bush = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/bored-bush.nc";
    const CommandRun bore = shop::firstoff("finish " + bush + " --inside --z-from -10 --z-to -30");
    EXPECT_EQ(bore.exitCode, 0) << bore.err;
    EXPECT_THAT(bore.out, StartsWith("1. inside, Z-10.000 to Z-30.000"));
}

// Every surface, a row each; the spigot has one nose radius on its diameters, whose formula stands beside the simulated
// figure: f²/8r of 0.12 mm and 0.4 mm is 4.5 µm.
TEST(FinishCommand, TellsEverySurface) {
    const Bench bench;
    const CommandRun run = shop::firstoff("finish " + kSpigot + " --out " + bench.path("all.csv"));
    EXPECT_EQ(run.exitCode, 0) << run.err;
    EXPECT_THAT(run.out, HasSubstr("outside Ø"));
    EXPECT_THAT(run.out, HasSubstr("4.50"));
    EXPECT_THAT(run.out, HasSubstr("line 21"));
    const std::string csv = bench.contents("all.csv");
    EXPECT_THAT(csv, StartsWith("surface,piece,kind,z_from_mm,"));
    EXPECT_GT(std::count(csv.begin(), csv.end(), '\n'), 6);
    const CommandRun plot = shop::firstoff("finish " + kSpigot + " --out " + bench.path("all.svg"));
    EXPECT_EQ(plot.exitCode, 2);
    EXPECT_THAT(plot.err, HasSubstr("there is a table (csv)"));
}

struct Use {
    const char* arguments;
    const char* says;
};

TEST(FinishCommand, SaysWhatIsMissing) {
    for (const Use& use :
         {Use{"--line 3", "--line 3: nothing is left"}, Use{"--line 3000", "the program has lines 1 to"},
          Use{"--z-from 3", "--z-to"}, Use{"--face-z 3", "--x-from"}, Use{"--line 21 --z-from 3 --z-to 4", "excludes"},
          Use{"--z-from 3 --z-to 4", "no figures: there is no metal"},
          Use{"--z-from -40 --z-to -44", "no figures: there is a face within the span"}}) {
        const CommandRun run = shop::firstoff("finish " + kSpigot + " " + use.arguments);
        EXPECT_EQ(run.exitCode, 2) << use.arguments;
        EXPECT_THAT(run.out + run.err, HasSubstr(use.says)) << use.arguments;
    }
}

}  // namespace
}  // namespace firstoff
