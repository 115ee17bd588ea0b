#include "gui/scene/scene_pick.h"

#include <gtest/gtest.h>

#include "gui/scene/solid_shapes.h"

namespace firstoff::gui {
namespace {

// A spigot: face 1 at z 60, shank 2 of radius 10, taper 3 up to radius 20 at z 30, cylinder as bought to z 0.
Loop spigot() {
    return {0, {{0, 0}, {60, 0}, {60, 10}, {40, 10}, {30, 20}, {0, 20}}, {kUncut, 1, 2, 3, kUncut, kUncut}};
}

struct Row {
    const char* name;
    Cutaway cutaway;
    Ray ray;
    bool hit;
    Point place;
    CutId cut;
    bool sectionFace;
};

TEST(HitTurned, FindsTheFirstSurfaceAndWhatCutIt) {
    const glm::vec3 towardsPlane(0, 0, -1), left(-1, 0, 0);
    const Row rows[] = {
        {"shank from the front", Cutaway::None, {{50, 0, 100}, towardsPlane}, true, {50, 10}, 2, false},
        {"taper from the front", Cutaway::None, {{35, 0, 100}, towardsPlane}, true, {35, 15}, 3, false},
        {"bar as bought", Cutaway::None, {{10, 0, 100}, towardsPlane}, true, {10, 20}, kUncut, false},
        {"face along the axis", Cutaway::None, {{200, 4, 3}, left}, true, {60, 5}, 1, false},
        {"above the shank, on to the taper", Cutaway::None, {{200, 15, 0}, left}, true, {35, 15}, 3, false},
        {"past everything", Cutaway::None, {{50, 15, 100}, towardsPlane}, false, {}, kUncut, false},
        {"away from it", Cutaway::None, {{50, 0, 100}, {0, 0, 1}}, false, {}, kUncut, false},
        {"section face of the quarter", Cutaway::Quarter, {{50, 4, 100}, towardsPlane}, true, {50, 4}, kUncut, true},
        {"quarter: the lower half still stands",
         Cutaway::Quarter,
         {{50, -6, 100}, towardsPlane},
         true,
         {50, 10},
         2,
         false},
        {"half: section face below the axis",
         Cutaway::Half,
         {{50, -4, 100}, towardsPlane},
         true,
         {50, 4},
         kUncut,
         true},
    };
    const Loop loop = spigot();
    for (const Row& row : rows) {
        const auto hit = hitTurned({&loop, 1}, 0, row.cutaway, row.ray);
        ASSERT_EQ(hit.has_value(), row.hit) << row.name;
        if (!hit) continue;
        EXPECT_NEAR(hit->pick.place.z, row.place.z, 1e-5) << row.name;  // the ray is in single precision
        EXPECT_NEAR(hit->pick.place.r, row.place.r, 1e-5) << row.name;
        EXPECT_EQ(hit->pick.cut, row.cut) << row.name;
        EXPECT_EQ(hit->pick.sectionFace, row.sectionFace) << row.name;
    }
}

TEST(HitTurned, LooksThroughABore) {
    const Loop tube{0, {{0, 8}, {50, 8}, {50, 20}, {0, 20}}, {5, 6, 7, kUncut}};
    const Ray down{{25, 0, 100}, {0, 0, -1}};
    EXPECT_EQ(hitTurned({&tube, 1}, 0, Cutaway::None, down)->pick.cut, 7u);
    // With half of it gone the far side of the bore is seen.
    const auto bore = hitTurned({&tube, 1}, 0, Cutaway::Half, down);
    ASSERT_TRUE(bore);
    EXPECT_EQ(bore->pick.cut, 5u);
    EXPECT_NEAR(bore->distance, 108, 1e-3);  // single precision
}

TEST(HitTurned, KeepsHeldAndLoosePiecesApart) {
    Loop loose = spigot();
    loose.piece = 2;
    const Ray ray{{50, 0, 100}, {0, 0, -1}};
    EXPECT_FALSE(hitTurned({&loose, 1}, 0, Cutaway::None, ray));
    const auto hit = hitTurned({&loose, 1}, 1, Cutaway::Quarter, {{50, 4, 100}, {0, 0, -1}});
    ASSERT_TRUE(hit);
    EXPECT_EQ(hit->pick.piece, 2);
}

TEST(HitMesh, MeetsTheNearSideOfAMovedBody) {
    const TriangleMesh mesh = box({-1, -1, -1}, {1, 1, 1}, 0, 0);
    const glm::mat4 model(glm::vec4(1, 0, 0, 0), glm::vec4(0, 1, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(10, 0, 0, 1));
    const auto hit = hitMesh(mesh, model, {{10.2f, 0.1f, 50}, {0, 0, -1}});
    ASSERT_TRUE(hit);
    EXPECT_NEAR(*hit, 49, 1e-4);  // single precision
    EXPECT_FALSE(hitMesh(mesh, model, {{0, 0, 50}, {0, 0, -1}}));
}

}  // namespace
}  // namespace firstoff::gui
