// `firstoff export`: the part of a job in files, read back by others.
#include "sim/output/part_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "sim/drawing/dxf_reader.h"
#include "sim/output/tables.h"
#include "sim/stock/part_mesh.h"
#include "tests/cli/command_run.h"
#include "tests/output/grid_reader.h"
#include "tests/output/solid_reader.h"
#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::CommandRun;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string kSpigot = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/coupling-spigot.nc";

std::shared_ptr<const Trial> spigotTrial() {
    return shop::run(shop::readFile("assets/jobs/coupling-spigot.nc"),
                     readSetup(shop::readFile("assets/jobs/coupling-spigot.toml"), "coupling-spigot.toml"));
}

TEST(PartFile, KindsGoByTheEnding) {
    EXPECT_EQ(partFileKind("a/b.stl"), PartFileKind::Stl);
    EXPECT_EQ(partFileKind("b.STL"), PartFileKind::Stl);
    EXPECT_EQ(partFileKind("b.x.3mf"), PartFileKind::ThreeMf);
    EXPECT_EQ(partFileKind("b.glb"), PartFileKind::Glb);
    EXPECT_EQ(partFileKind("b.vdb"), PartFileKind::Vdb);
    EXPECT_EQ(partFileKind("b.svg"), PartFileKind::Svg);
    EXPECT_EQ(partFileKind("b.dxf"), PartFileKind::Dxf);
    for (const char* none : {"", "stl", "b.step", "b.stl.", ".stl"}) EXPECT_EQ(partFileKind(none), std::nullopt);
}

TEST(Export, HoldsTheVolumeOfHeldAndFallenMetal) {
    const Bench bench;
    const auto trial = spigotTrial();
    const double held = trial->stock->endVolumeMm3();
    const double piece = trial->stock->severances().at(0).volumeMm3;
    const std::string out = bench.path("part.stl");
    const CommandRun all = shop::firstoff("export " + kSpigot + " --out " + out);
    EXPECT_EQ(all.exitCode, 0) << all.err;
    EXPECT_THAT(all.out, IsEmpty());
    // Straight between meridians that keep 4 µm on a radius of 25 mm or less: 2·4/25 of a thousandth of the volume at
    // the very most, and never more than the turned part.
    const double most = 2 * 0.004 / 25 * (held + piece);
    EXPECT_NEAR(shop::readStlByHand(bench.contents("part.stl")).volume(), held + piece, most);
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --piece 1 --out " + out).exitCode, 0);
    const shop::ReadBody alone = shop::readStlByHand(bench.contents("part.stl"));
    EXPECT_NEAR(alone.volume(), piece, 2 * 0.004 / 25 * piece);
    // Z0 is the finished front face, X and Y lie about the axis.
    double front = -1e9;
    double across = 0;
    for (const auto& p : alone.points) {
        front = std::max(front, p[2]);
        across = std::max(across, std::abs(p[0]));
    }
    EXPECT_NEAR(front, 0, 1e-5);
    EXPECT_LE(across, 25 + 1e-5);
    EXPECT_EQ(bench.files(), 1);
}

TEST(Export, AtTheStartIsTheBar) {
    const Bench bench;
    const std::string out = bench.path("bar.3mf");
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --at-time 0 --out " + out).exitCode, 0);
    const std::vector<shop::ReadBody> bodies = shop::readSolids(out);
    ASSERT_EQ(bodies.size(), 1U);
    EXPECT_NEAR(bodies[0].volume(), spigotTrial()->stock->startVolumeMm3(), 2 * 0.004 / 25 * bodies[0].volume());
}

TEST(Export, ToleranceMakesItSmaller) {
    const Bench bench;
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --out " + bench.path("a.stl")).exitCode, 0);
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --tolerance-mm 0.1 --out " + bench.path("b.stl")).exitCode, 0);
    EXPECT_LT(3 * bench.contents("b.stl").size(), bench.contents("a.stl").size());
}

TEST(Export, GridHoldsTheVolumeToAVoxel) {
    const Bench bench;
    const auto trial = spigotTrial();
    const std::string out = bench.path("part.vdb");
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --voxel-mm 0.5 --out " + out).exitCode, 0);
    const std::vector<shop::ReadGrid> grids = shop::readGrids(out);
    ASSERT_EQ(grids.size(), 2U);
    EXPECT_EQ(grids[1].name, "piece 1");
    for (const shop::ReadGrid& grid : grids) {
        EXPECT_TRUE(grid.isLevelSet);
        EXPECT_EQ(grid.unit, "mm");
        EXPECT_DOUBLE_EQ(grid.voxelMm, 0.5);
    }
    // A level set rounds edges off and places surfaces to a fraction of a voxel: a tenth of one over the surface of the
    // piece, which is below that of a cylinder of 50 by 60.
    const double surface = 2 * 3.1416 * 25 * (25 + 60);
    EXPECT_NEAR(grids[1].volumeMm3, trial->stock->severances().at(0).volumeMm3, 0.1 * 0.5 * surface);
}

TEST(Export, SectionIsADrawingWithTheAxis) {
    const Bench bench;
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --out " + bench.path("part.svg")).exitCode, 0);
    const std::string svg = bench.contents("part.svg");
    EXPECT_THAT(svg, HasSubstr("id=\"hatching\""));
    EXPECT_THAT(svg, HasSubstr("id=\"outline\""));
    EXPECT_THAT(svg, HasSubstr("id=\"centre-line\""));
}

TEST(Export, DxfReadsBackAsTheSection) {
    const Bench bench;
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --piece 1 --out " + bench.path("part.dxf")).exitCode, 0);
    const Drawing drawing = readDxf(bench.contents("part.dxf"));
    EXPECT_TRUE(drawing.faults.empty());
    EXPECT_EQ(drawing.unit, DrawingUnit::Millimetre);
    ASSERT_EQ(drawing.paths.size(), 2U);
    EXPECT_EQ(drawing.paths[0].layer, "PIECE_1");
    EXPECT_TRUE(drawing.paths[0].closed);
    EXPECT_EQ(drawing.paths[1].layer, "AXIS");
    // Arcs stay arcs; few corners do.
    const Contour& corners = drawing.paths[0].corners;
    EXPECT_LT(corners.size(), 60U);
    EXPECT_GT(std::count_if(corners.begin(), corners.end(), [](const ContourCorner& c) { return c.bulge != 0; }), 1);
    // By Pappus, the volume of the piece; chords of 1 µm over its surface.
    double moment = 0;
    const std::vector<Point> points = polyline(corners, 0.001);
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Point a = points[i], b = points[(i + 1) % points.size()];
        moment += cross(a, b) * (a.r + b.r) / 6;
    }
    EXPECT_NEAR(2 * kPi * moment, spigotTrial()->stock->severances().at(0).volumeMm3, 0.001 * 2 * kPi * 25 * 120);
}

TEST(Export, TwoRunsGiveTheSameBytes) {
    const Bench bench;
    for (const std::string kind : {"stl", "3mf", "glb", "vdb", "svg", "dxf"}) {
        const std::string command = "export " + kSpigot + " --tolerance-mm 0.05 --voxel-mm 1 --out ";
        EXPECT_EQ(shop::firstoff(command + bench.path("a." + kind)).exitCode, 0) << kind;
        EXPECT_EQ(shop::firstoff(command + bench.path("b." + kind)).exitCode, 0) << kind;
        EXPECT_TRUE(bench.contents("a." + kind) == bench.contents("b." + kind)) << kind;
    }
    EXPECT_EQ(bench.files(), 12);  // nothing half written beside them
}

TEST(Export, TellsTheVerdictAsTheOthersDo) {
    const Bench bench;
    const std::string trap = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/trap.nc";
    const CommandRun run = shop::firstoff("export " + trap + " --out " + bench.path("trap.stl"));
    EXPECT_EQ(run.exitCode, 1);
    EXPECT_THAT(run.err, HasSubstr("the verdict is problems"));
    EXPECT_TRUE(bench.has("trap.stl"));
}

TEST(Export, ReplacesTheOldFileOnlyByAWholeOne) {
    const Bench bench;
    const std::string out = bench.put("part.stl", "old");
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --piece 9 --out " + out).exitCode, 2);
    EXPECT_EQ(bench.contents("part.stl"), "old");
    EXPECT_EQ(shop::firstoff("export " + kSpigot + " --out " + out).exitCode, 0);
    EXPECT_GT(bench.contents("part.stl").size(), 1000U);
}

}  // namespace
}  // namespace firstoff
