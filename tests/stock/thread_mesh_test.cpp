// Meshes of what is not round: threads.
#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <vector>

#include "sim/base/units.h"
#include "sim/stock/mesh_bands.h"
#include "sim/stock/mesh_check.h"
#include "sim/stock/part_mesh.h"
#include "tests/stock/mesh_library.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

using shop::ThreadWork;
using shop::TipPath;

Billet threaded(const ThreadWork& work, int sectors, double bore = 0) {
    firstoff::Setup setup = shop::barStock(24, 60, 1, bore);
    shop::addFullProfile(setup, 5, work.pitch);
    TipPath path(setup);
    shop::cutThread(path, 5, setup.stock.frontZ, work);
    HistoryOptions options;
    options.sectors = sectors;
    StockCursor cursor(StockHistory::cut(path.timeline(), path.toolpath(), setup, options));
    cursor.seek(path.moves(), 0);
    return cursor.billet();
}

// Between two meridians the surface runs straight: of two radii a and b the wedge has the share a b sin(step) / 2.
double wedgeVolume(const Billet& billet) {
    const int n = billet.sectors();
    const double step = 2 * kPi / n;
    double sum = 0;
    std::vector<Interval> here, next;
    for (int column = 0; column < billet.grid().columns; ++column) {
        for (int j = 0; j < n; ++j) {
            billet.intervals(column, here, j);
            billet.intervals(column, next, (j + 1) % n);
            for (std::size_t k = 0; k < std::min(here.size(), next.size()); ++k) {
                sum += here[k].outer * next[k].outer - here[k].inner * next[k].inner;
            }
        }
    }
    return sum * std::sin(step) / 2 * billet.grid().pitch;
}

struct Row {
    const char* name;
    ThreadWork work;
    int sectors = 64;
    double bore = 0;
};

std::vector<Row> rows() {
    ThreadWork left, fine, twoStarts, shallow, away;
    left.direction = SpindleDirection::Reverse;
    fine.pitch = 1.5;
    fine.length = 12;
    twoStarts.starts = 2;
    twoStarts.length = 15;
    shallow.depth = 0.3;
    shallow.passes = 2;
    away.awayFromChuck = true;
    return {{"M24 by 3", {}},          {"as the history has it", {}, 256},
            {"left hand", left},       {"fine", fine},
            {"two starts", twoStarts}, {"few sectors", {}, 16},
            {"shallow", shallow},      {"away from the chuck", away},
            {"on a tube", {}, 64, 12}, {"through the wall of a tube", {}, 48, 21}};
}

// The surface follows the helix from corner to corner, the wedges follow the columns. Round a corner of the thread, of
// which there are four a turn, the two differ by no more than a triangle as long as the corner moves from one meridian
// to the next and as high as the flank of 30° rises over that.
double helixShare(const ThreadWork& work, int sectors) {
    const double step = work.pitch * work.starts / sectors;
    const double turns = work.length / work.pitch;
    return 4 * turns * step * step / 2 / std::tan(radians(30)) * kPi * work.diameter;
}

TEST(ThreadMesh, IsClosedAndOfTheVolumeOfTheColumns) {
    for (const Row& row : rows()) {
        SCOPED_TRACE(row.name);
        const Billet billet = threaded(row.work, row.sectors, row.bore);
        ASSERT_FALSE(allRound(billet));
        const PartMesh mesh = partMesh(billet);
        const MeshFaults faults = meshFaults(mesh);
        EXPECT_EQ(faults.openEdges, 0U);
        EXPECT_EQ(faults.pinchedPoints, 0U);
        EXPECT_EQ(faults.flatTriangles, 0U);
        EXPECT_FALSE(faults.insideOut);
        const shop::LibraryVerdict library = shop::askLibrary(mesh);
        EXPECT_TRUE(library.isMesh);
        EXPECT_TRUE(library.closed);
        EXPECT_FALSE(library.selfIntersects);
        EXPECT_TRUE(library.boundsVolume);
        // And 1 µm for the section over twice the surface of the bar.
        const double section = 0.001 * 2 * kPi * row.work.diameter * 60;
        EXPECT_NEAR(mesh.volumeMm3(), wedgeVolume(billet), section + helixShare(row.work, row.sectors));
    }
}

TEST(ThreadMesh, OfAThreadOf40MillimetresIsSmall) {
    EXPECT_LT(partMesh(threaded({}, 256)).triangles.size(), 200'000U);
}

// Well behind the front face and well before the end of a thread of 40 mm.
bool inThread(double frontZ, const MeshPoint& p) {
    return p.z > frontZ - 30 && p.z < frontZ - 10;
}
double frontOf(const PartMesh& mesh) {
    double front = -1e9;
    for (const MeshPoint& p : mesh.points) front = std::max(front, p.z);
    return front;
}

// In the frame x, y, z the helix of a right-hand thread climbs z by a lead while it turns once from x to y.
TEST(ThreadMesh, IsRightHandedUnderForwardSpindleTowardsTheChuck) {
    const ThreadWork work;
    const PartMesh mesh = partMesh(threaded(work, 64));
    const double frontZ = frontOf(mesh);
    double x = 0;
    double y = 0;
    int count = 0;
    const double root = 12 - 0.61343 * 3;
    for (const MeshPoint& p : mesh.points) {
        if (std::hypot(p.x, p.y) > root + 0.02 || !inThread(frontZ, p)) continue;
        const double phase = std::atan2(p.y, p.x) - 2 * kPi * p.z / work.pitch;
        x += std::cos(phase);
        y += std::sin(phase);
        ++count;
    }
    ASSERT_GT(count, 100);
    // All roots lie on one helix. Places within 0.02 mm of the bottom of a root of R0.433 lie within 0.13 mm of its
    // middle, which is 0.28 rad of a lead to either side, and cos 0.28 = 0.96.
    EXPECT_GT(std::hypot(x, y) / count, 0.96);
}

// Columns and mesh agree in every meridian.
TEST(ThreadMesh, PointsLieOnTheColumns) {
    const Billet billet = threaded({}, 64);
    const PartMesh mesh = partMesh(billet);
    const double frontZ = frontOf(mesh);
    std::vector<Interval> solids;
    int looked = 0;
    for (const MeshPoint& p : mesh.points) {
        const double r = std::hypot(p.x, p.y);
        if (r < 1 || !inThread(frontZ, p)) continue;
        const double share = std::atan2(-p.y, p.x) / (2 * kPi) * 64;
        const int sector = (static_cast<int>(std::lround(share)) + 64) % 64;
        EXPECT_NEAR(share, std::round(share), 1e-9);
        billet.intervals(billet.grid().columnNear(p.z), solids, sector);
        // The tolerance of the section, and half a column along a flank of 30°.
        EXPECT_NEAR(solids.back().outer, r, 0.001 + 0.001 / std::tan(radians(30)));
        ++looked;
    }
    EXPECT_GT(looked, 1000);
}

}  // namespace
}  // namespace firstoff
