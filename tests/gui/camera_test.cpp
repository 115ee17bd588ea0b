#include <gtest/gtest.h>

#include "gui/scene/camera.h"

namespace firstoff::gui {
namespace {

// 1e-3 px: single precision over a picture of about a thousand pixels.
constexpr float kPixel = 1e-3f;

glm::vec2 pixelOf(const Camera& camera, glm::vec3 place, int width, int height) {
    const glm::vec4 p =
        camera.projection(static_cast<float>(width) / static_cast<float>(height)) * camera.view() * glm::vec4(place, 1);
    return glm::vec2(0.5f + 0.5f * p.x / p.w, 0.5f - 0.5f * p.y / p.w) * glm::vec2(width, height);
}

TEST(Camera, ShowsTheTurningHalfPlaneSquareOnAtItsDefaultAngles) {
    const Camera camera;
    const glm::vec2 origin = pixelOf(camera, {0, 0, 0}, 800, 600);
    const glm::vec2 alongZ = pixelOf(camera, {10, 0, 0}, 800, 600) - origin;
    const glm::vec2 alongX = pixelOf(camera, {0, 10, 0}, 800, 600) - origin;
    EXPECT_GT(alongZ.x, 1);  // Z of the lathe to the right
    EXPECT_NEAR(alongZ.y, 0, kPixel);
    EXPECT_NEAR(alongX.x, 0, kPixel);
    EXPECT_NEAR(alongX.y, -alongZ.x, kPixel);                  // X upwards, to the same scale
    EXPECT_NEAR(alongZ.x * camera.mmPerPixel(600), 10, 1e-3);  // mm; single precision
}

TEST(Camera, KeepsWhatIsUnderThePointerWhenComingNearer) {
    Camera camera;
    camera.azimuth = 0.4f;
    const glm::vec2 pixel{613, 127};
    const Ray before = rayThrough(camera, pixel, 800, 600);
    // The place under the pointer, in the plane through the target square to the view.
    const float depth = camera.distance / glm::dot(before.direction, -camera.direction());
    const glm::vec3 place = before.origin + depth * before.direction;
    camera.zoom(1.7f, pixel, 800, 600);
    const glm::vec2 after = pixelOf(camera, place, 800, 600);
    EXPECT_NEAR(after.x, pixel.x, 0.05f);  // px: far below what an eye sees, above single precision
    EXPECT_NEAR(after.y, pixel.y, 0.05f);
}

TEST(Camera, ComesNearerToAPlaceThatStaysUnderItsPixel) {
    Camera camera;
    camera.target = {20, 5, -3};
    camera.azimuth = 0.4f;
    const glm::vec3 place{60, 18, 22};
    const glm::vec2 before = pixelOf(camera, place, 800, 600);
    const float distance = glm::length(camera.eye() - place);
    camera.zoomTo(1.7f, place);
    const glm::vec2 after = pixelOf(camera, place, 800, 600);
    EXPECT_NEAR(after.x, before.x, 0.05f);  // px: far below what an eye sees, above single precision
    EXPECT_NEAR(after.y, before.y, 0.05f);
    EXPECT_NEAR(glm::length(camera.eye() - place), distance / 1.7f, 1e-3f * distance);
}

TEST(Camera, FramesABoxFromAnySide) {
    for (float azimuth : {-2.5f, -0.6f, 0.0f, 0.9f, 3.0f}) {
        for (float aspect : {0.6f, 1.0f, 1.8f}) {
            const glm::vec3 low{-80, -90, -90}, high{140, 90, 90};
            const Camera camera = framing(low, high, azimuth, 0.4f, aspect);
            const int height = 1000, width = static_cast<int>(aspect * 1000);
            for (int corner = 0; corner < 8; ++corner) {
                const glm::vec3 place((corner & 1) ? high.x : low.x, (corner & 2) ? high.y : low.y,
                                      (corner & 4) ? high.z : low.z);
                const glm::vec2 pixel = pixelOf(camera, place, width, height);
                EXPECT_TRUE(pixel.x > 0 && pixel.x < static_cast<float>(width)) << pixel.x << " at azimuth " << azimuth;
                EXPECT_TRUE(pixel.y > 0 && pixel.y < static_cast<float>(height))
                    << pixel.y << " at azimuth " << azimuth;
            }
        }
    }
}

TEST(Camera, ViewNamesAreReadAndWrittenAlike) {
    for (ViewName view : {ViewName::Machine, ViewName::Part, ViewName::Tool, ViewName::EndOn}) {
        EXPECT_EQ(viewNamed(name(view)), view);
    }
    EXPECT_EQ(viewNamed("sideways"), std::nullopt);
}

}  // namespace
}  // namespace firstoff::gui
