// Sections of bars that are not round, at the angle asked for.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <sstream>
#include <string>

#include "sim/base/units.h"
#include "tests/cli/command_run.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::CommandRun;
using testing::HasSubstr;

// The demo's set-up with a hexagon bar of 40 mm across flats, and a program that does nothing to it.
std::string hexagonJob(const Bench& bench) {
    std::string text = shop::spigotSetupWithoutDrawing();
    const std::size_t begin = text.find("[stock]");
    const std::size_t end = text.find("\n[", begin);
    bench.put("job.toml", text.replace(begin, end - begin,
                                       "[stock]\nshape = \"hexagon\"\nacross_flats_mm = 40\nlength_mm = 110\n"
                                       "stick_out_mm = 70\n"));
    return bench.put("job.nc", "O1\nG28 U0\nM30\n");
}

double greatestRadius(const std::string& table) {
    std::istringstream lines(table);
    std::string line;
    double greatest = 0;
    while (std::getline(lines, line)) {
        int piece = 0, loop = 0;
        double z = 0, r = 0;
        if (std::sscanf(line.c_str(), "%d,%d,%lf,%lf", &piece, &loop, &z, &r) == 4) greatest = std::max(greatest, r);
    }
    return greatest;
}

TEST(SectionAngle, IsThatOfTheHalfPlane) {
    const Bench bench;
    const std::string program = hexagonJob(bench);
    struct Row {
        const char* option;
        double angleDeg;  // of a flat's middle from there
    };
    for (const Row& row : {Row{"", 0}, Row{" --angle 30", 30}, Row{" --angle -15", 15}, Row{" --angle 75", 15}}) {
        const CommandRun run = shop::firstoff("section " + program + row.option);
        EXPECT_EQ(run.exitCode, 0) << run.err;
        EXPECT_EQ(run.err, "");
        // Six figures in the table.
        EXPECT_NEAR(greatestRadius(run.out), 20 / std::cos(radians(row.angleDeg)), 1e-5) << row.option;
    }
}

TEST(SectionAngle, TheNearestThatIsKnownIsSaid) {
    const Bench bench;
    // 264 half-planes.
    const CommandRun run = shop::firstoff("section " + hexagonJob(bench) + " --angle 31");
    EXPECT_THAT(run.err, HasSubstr("31.364"));
    EXPECT_NEAR(greatestRadius(run.out), 20 / std::cos(radians(30 - 360.0 / 264)), 1e-5);
}

TEST(SectionAngle, IsForSectionsOnly) {
    const Bench bench;
    const std::string program = hexagonJob(bench);
    EXPECT_EQ(shop::firstoff("export " + program + " --angle 30 --out " + bench.path("part.svg")).exitCode, 0);
    EXPECT_TRUE(bench.has("part.svg"));
    // A corner: 20 / cos 30° = 23.094.
    EXPECT_EQ(shop::firstoff("export " + program + " --angle 30 --out " + bench.path("part.dxf")).exitCode, 0);
    EXPECT_THAT(bench.contents("part.dxf"), HasSubstr("23.094"));
    const CommandRun run = shop::firstoff("export " + program + " --angle 30 --out " + bench.path("part.stl"));
    EXPECT_EQ(run.exitCode, 2);
    EXPECT_THAT(run.err, HasSubstr("--angle"));
    EXPECT_FALSE(bench.has("part.stl"));
}

}  // namespace
}  // namespace firstoff
