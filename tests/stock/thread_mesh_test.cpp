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

Billet threaded(const ThreadWork& work, int sectors) {
    firstoff::Setup setup = shop::barStock(24, 60);
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

TEST(ThreadMesh, IsClosedAndOfTheVolumeOfTheColumns) {
    for (int sectors : {16, 64}) {
        SCOPED_TRACE(sectors);
        const Billet billet = threaded({}, sectors);
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
        EXPECT_NEAR(mesh.volumeMm3(), wedgeVolume(billet), 1);
        for (const MeshBand& band : meshBands(billet)) printf("%d: %d-%d\n", static_cast<int>(band.kind), band.firstChunk, band.endChunk);
        printf("%zu triangles %f %f\n", mesh.triangles.size(), mesh.volumeMm3(), billet.volumeMm3());
    }
}

}  // namespace
}  // namespace firstoff
