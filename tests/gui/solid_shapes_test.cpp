#include "gui/scene/solid_shapes.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/gui/mesh_checks.h"

namespace firstoff::gui {
namespace {

float polygonArea(const Polygon& polygon) {
    float sum = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const glm::vec2 a = polygon[i], b = polygon[(i + 1) % polygon.size()];
        sum += 0.5f * (a.x * b.y - a.y * b.x);
    }
    return sum;
}

TEST(ConvexHull, DropsWhatLiesInsideAndRunsAnticlockwise) {
    const Polygon hull = convexHull({{0, 0}, {4, 0}, {2, 1}, {4, 3}, {2, 0}, {0, 3}, {1, 2}});
    EXPECT_EQ(hull.size(), 4u);
    EXPECT_FLOAT_EQ(polygonArea(hull), 12);
}

TEST(Inset, MovesEveryEdgeInAndLetsShortOnesVanish) {
    EXPECT_FLOAT_EQ(polygonArea(inset(rectangle({0, 0}, {10, 6}), 1)), 8 * 4);
    // A corner broken by 1 mm at 45° is gone once the sides have moved in by more than 1 / (2 - sqrt 2) mm.
    const Polygon broken{{0, 0}, {9, 0}, {10, 1}, {10, 10}, {0, 10}};
    EXPECT_EQ(inset(broken, 1).size(), 5u);
    EXPECT_EQ(inset(broken, 2).size(), 4u);
    EXPECT_TRUE(inset(rectangle({0, 0}, {10, 6}), 3.1f).empty());
}

TEST(Prism, IsWatertightWithTheVolumeOfElementaryGeometry) {
    struct Row {
        const char* name;
        Prism shape;
        double volume;
    };
    const Row rows[] = {
        {"sharp", {rectangle({0, 0}, {10, 6}), -2, 3, 0, 0}, 10 * 6 * 5},
        // Two frusta of height 0.5 between 10 x 6 and 9 x 5, and 4 mm of the full section (prismoidal formula).
        {"edges broken",
         {rectangle({0, 0}, {10, 6}), -2, 3, 0.5f, 0},
         10 * 6 * 4 + 2 * 0.5 / 6 * (10 * 6 + 4 * 9.5 * 5.5 + 9 * 5)},
        // From 8 x 4 at the foot to 10 x 6.
        {"draft", {rectangle({0, 0}, {10, 6}), 0, 5, 0, 1}, 5.0 / 6 * (8 * 4 + 4 * 9 * 5 + 10 * 6)},
    };
    for (const Row& row : rows) {
        const TriangleMesh mesh = prism(row.shape, 0);
        EXPECT_TRUE(watertight(mesh)) << row.name;
        EXPECT_NEAR(volume(mesh), row.volume, 1e-4 * row.volume) << row.name;  // single precision
    }
}

TEST(Prism, ShadesRoundSidesAsRoundAndFlatSidesAsFlat) {
    for (const Vertex& v : prism({regular(36, 10), 0, 5, 0, 0}, 0).vertices) {
        if (std::abs(v.normal.z) > 0.5f) continue;  // the ends
        // The normal of a corner shared by two sides points along the radius.
        EXPECT_NEAR(glm::dot(glm::vec2(v.normal), glm::normalize(glm::vec2(v.place))), 1, 1e-5);  // single precision
    }
    for (const Vertex& v : prism({rectangle({-1, -1}, {1, 1}), 0, 5, 0, 0}, 0).vertices) {
        EXPECT_NEAR(std::max({std::abs(v.normal.x), std::abs(v.normal.y), std::abs(v.normal.z)}), 1, 1e-6);
    }
}

TEST(Box, IsWatertightAndFillsItsCorners) {
    const TriangleMesh mesh = box({-1, 2, 3}, {4, 9, 5}, 0.3f, 0);
    EXPECT_TRUE(watertight(mesh));
    glm::vec3 low(1e9f), high(-1e9f);
    for (const Vertex& v : mesh.vertices) {
        low = glm::min(low, v.place);
        high = glm::max(high, v.place);
    }
    EXPECT_EQ(low, glm::vec3(-1, 2, 3));
    EXPECT_EQ(high, glm::vec3(4, 9, 5));
}

}  // namespace
}  // namespace firstoff::gui
