// Solids written by us and read back by others and by hand.
#include "sim/output/solid_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/units.h"
#include "sim/output/mesh_shading.h"
#include "sim/output/whole_file.h"
#include "sim/stock/sweep_profile.h"
#include "tests/cli/command_run.h"
#include "tests/output/solid_reader.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::ReadBody;
using testing::HasSubstr;

// A shaft with a groove, and a ring beside it.
std::vector<SolidBody> shaftAndRing() {
    Stock bar;
    bar.outerRadius = 25;
    bar.frontZ = 80;
    Billet shaft(bar);
    auto setup = firstoff::Setup{};
    const ToolShape blade = toolShape(shop::addGroovingTool(setup, 1, 3, 0.2).cutting);
    shaft.cut({{40, 30}, {40, 18}, {}, Sweep::Path::Line}, blade, 3);
    bar.boreRadius = 10;
    bar.backZ = 85;
    bar.frontZ = 95;
    return {{"held", partMesh(shaft)}, {"piece 1", partMesh(Billet(bar), {}, 1)}};
}

double volume(const std::vector<SolidBody>& bodies) {
    double sum = 0;
    for (const SolidBody& body : bodies) sum += body.mesh.volumeMm3();
    return sum;
}

double volume(const std::vector<ReadBody>& bodies) {
    double sum = 0;
    for (const ReadBody& body : bodies) sum += body.volume();
    return sum;
}

std::uint32_t colour(CutId cut) {
    return cut == 3 ? 0xe69f00 : 0x6f6862;
}

// Single precision holds seven digits, so a volume is good to a few parts in ten million.
constexpr double kSingle = 1e-6;

TEST(SolidFiles, StlHoldsTheVolume) {
    const std::vector<SolidBody> bodies = shaftAndRing();
    const std::string bytes = stlFile(bodies);
    const ReadBody byHand = shop::readStlByHand(bytes);
    EXPECT_NEAR(byHand.volume(), volume(bodies), kSingle * volume(bodies));
    EXPECT_EQ(byHand.triangles.size(), bodies[0].mesh.triangles.size() + bodies[1].mesh.triangles.size());
    EXPECT_EQ(byHand.lit, byHand.points.size());
    EXPECT_NE(bytes.substr(0, 5), "solid");  // that would be the mark of a text file
    const Bench bench;
    EXPECT_NEAR(volume(shop::readSolids(bench.put("a.stl", bytes))), volume(bodies), kSingle * volume(bodies));
}

// Far from the datum single precision cannot tell neighbouring points apart; the surface must close all the same.
TEST(SolidFiles, StlStaysClosedWhereSinglePrecisionEnds) {
    std::vector<SolidBody> bodies = shaftAndRing();
    constexpr double kFar = 2e7;  // where single precision counts in steps of 2 mm
    for (MeshPoint& p : bodies[0].mesh.points) p = {p.x + kFar, p.y + kFar, p.z + kFar};
    const ReadBody body = shop::readStlByHand(stlFile({bodies[0]}));
    EXPECT_LT(body.triangles.size(), bodies[0].mesh.triangles.size());
    std::vector<std::pair<std::array<double, 3>, std::array<double, 3>>> edges;
    for (const auto& t : body.triangles) {
        for (std::size_t i = 0; i < 3; ++i) edges.emplace_back(body.points[t[i]], body.points[t[(i + 1) % 3]]);
    }
    std::sort(edges.begin(), edges.end());
    for (const auto& edge : edges) {
        const auto forth = std::equal_range(edges.begin(), edges.end(), edge);
        const auto back = std::equal_range(edges.begin(), edges.end(), std::pair(edge.second, edge.first));
        EXPECT_EQ(forth.second - forth.first, back.second - back.first);
    }
}

TEST(SolidFiles, ThreeMfHoldsTheVolumeAndTheBodies) {
    const std::vector<SolidBody> bodies = shaftAndRing();
    const Bench bench;
    const std::vector<ReadBody> read = shop::readSolids(bench.put("a.3mf", threeMfFile(bodies)));
    ASSERT_EQ(read.size(), 2U);
    EXPECT_EQ(read[0].points.size(), bodies[0].mesh.points.size());
    EXPECT_EQ(read[1].triangles.size(), bodies[1].mesh.triangles.size());
    EXPECT_NEAR(volume(read), volume(bodies), kSingle * volume(bodies));
}

TEST(SolidFiles, GlbIsInMetresAndCarriesColours) {
    const std::vector<SolidBody> bodies = shaftAndRing();
    const Bench bench;
    const std::vector<ReadBody> read = shop::readSolids(bench.put("a.glb", glbFile(bodies, colour)));
    ASSERT_EQ(read.size(), 2U);
    EXPECT_EQ(read[0].name, "held");
    EXPECT_EQ(read[1].name, "piece 1");
    EXPECT_NEAR(volume(read), 1e-9 * volume(bodies), kSingle * 1e-9 * volume(bodies));
    for (const ReadBody& body : read) {
        EXPECT_EQ(body.coloured, body.points.size());
        EXPECT_EQ(body.lit, body.points.size());
    }
}

TEST(SolidFiles, SameBodiesGiveTheSameBytes) {
    const std::vector<SolidBody> bodies = shaftAndRing();
    EXPECT_EQ(stlFile(bodies), stlFile(shaftAndRing()));
    EXPECT_EQ(threeMfFile(bodies), threeMfFile(shaftAndRing()));
    EXPECT_EQ(glbFile(bodies, colour), glbFile(shaftAndRing(), colour));
}

TEST(MeshShading, CylinderIsRoundInTheLightAndItsEdgesAreSharp) {
    Stock bar;
    bar.outerRadius = 25;
    bar.frontZ = 80;
    const PartMesh mesh = partMesh(Billet(bar));
    const ShadedMesh lit = shaded(mesh, radians(30), colour);
    // Each of the 160 points of the two circles once for its face and once for the cylinder, and the two poles.
    EXPECT_EQ(lit.corners.size(), 2U * (2 * 160 + 1));
    for (const ShadedMesh::Corner& c : lit.corners) {
        const bool onFace = std::abs(std::abs(c.normal.z) - 1) < 1e-12;
        // A point on the cylinder is lit along its radius; half an angle between meridians off at most.
        const double along = (c.normal.x * c.place.x + c.normal.y * c.place.y) / 25;
        EXPECT_TRUE(onFace || along > std::cos(kPi / 160));
    }
}

}  // namespace
}  // namespace firstoff
