// Threads and other bodies that are not round, as the picture has them.
#include "gui/scene/solid_mesh.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/gui/mesh_checks.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff::gui {
namespace {

struct ThreadedBar {
    std::shared_ptr<const StockHistory> history;
    std::uint32_t moves = 0;
};

ThreadedBar threadedBar() {
    firstoff::Setup setup = shop::barStock(24, 60);
    shop::addFullProfile(setup, 5, 3);
    shop::TipPath path(setup);
    shop::cutThread(path, 5, setup.stock.frontZ, {});
    return {StockHistory::cut(path.timeline(), path.toolpath(), setup), path.moves()};
}

TEST(SolidMesh, StandsInTheSceneWithNormalsOutwards) {
    const ThreadedBar bar = threadedBar();
    StockCursor cursor(bar.history);
    cursor.seek(bar.moves, 0);
    const auto meshes = solidsFor(*bar.history, cursor.billet(), bar.moves, 0.02, 80'000);
    ASSERT_EQ(meshes.size(), 1U);
    const TriangleMesh mesh = solidMesh(meshes[0], [](CutId) { return 0xffu; });
    // Single precision: seven digits.
    EXPECT_NEAR(volume(mesh), meshes[0].volumeMm3(), 1e-5 * meshes[0].volumeMm3());
    float front = -1e9f;
    for (const Vertex& v : mesh.vertices) {
        front = std::max(front, v.place.x);
        EXPECT_NEAR(glm::length(v.normal), 1, 1e-5);
    }
    for (const Vertex& v : mesh.vertices) {
        // On the cylinder behind the thread.
        if (std::abs(v.place.x - (front - 55)) < 3 && std::abs(v.normal.x) < 0.01f) {
            EXPECT_GT(v.normal.y * v.place.y + v.normal.z * v.place.z, 11.9f);
        }
    }
}

TEST(SolidMesh, KeepsToTheNumberOfTriangles) {
    const ThreadedBar bar = threadedBar();
    StockCursor cursor(bar.history);
    cursor.seek(bar.moves, 0);
    for (double tolerance : {0.001, 0.2}) {
        std::size_t triangles = 0;
        for (const PartMesh& mesh : solidsFor(*bar.history, cursor.billet(), bar.moves, tolerance, 80'000)) {
            triangles += mesh.triangles.size();
        }
        EXPECT_LE(triangles, 80'000U);
        EXPECT_GT(triangles, 3'000U);
    }
}

}  // namespace
}  // namespace firstoff::gui
