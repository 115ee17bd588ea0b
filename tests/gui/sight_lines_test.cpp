#include "gui/scene/sight_lines.h"

#include <gtest/gtest.h>

#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/machine_picture.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/scene_pick.h"
#include "gui/scene/solid_shapes.h"
#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

// A square plate of 200 mm, square to the third axis, in its own frame.
TriangleMesh plate() {
    TriangleMesh mesh;
    for (const glm::vec2 corner :
         {glm::vec2(-100, -100), glm::vec2(100, -100), glm::vec2(100, 100), glm::vec2(-100, 100)})
        mesh.vertices.push_back({glm::vec3(corner, 0), {0, 0, 1}});
    mesh.indices = {0, 1, 2, 0, 2, 3};
    return mesh;
}

SceneInstant atTheCut(const Trial& trial) {
    SceneInstant instant;
    instant.trial = &trial;
    instant.toolIndex = 0;
    instant.tip = {trial.setup.stock.frontZ - 10, 22};
    return instant;
}

struct Row {
    const char* what;
    glm::vec3 plate;  // where its middle stands, scene frame, from the tip
    Neighbours how;
    float least, most;  // opacity
};

TEST(SightLines, FadeWhatStandsBeforeTheCut) {
    const auto trial = pictureJob();
    const SceneInstant instant = atTheCut(*trial);
    Camera camera;
    camera.target = inScene(instant.tip);
    const glm::vec3 towards = camera.direction();
    const TriangleMesh mesh = plate();
    for (const Row& row : {Row{"before it", 200.0f * towards, Neighbours::Faded, 0.1f, 0.3f},
                           Row{"before it, left out", 200.0f * towards, Neighbours::LeftOut, 0, 0.01f},
                           Row{"before it, solid", 200.0f * towards, Neighbours::Solid, 1, 1},
                           Row{"behind it", -200.0f * towards, Neighbours::Faded, 1, 1},
                           Row{"beside it", 200.0f * towards + glm::vec3(250, 0, 0), Neighbours::Faded, 1, 1},
                           Row{"behind the eye", 900.0f * towards, Neighbours::Faded, 1, 1}}) {
        SceneOptions options;
        options.neighbours = row.how;
        const SightLines sight(instant, options, camera);
        const glm::mat4 placed = glm::translate(glm::mat4(1), inScene(instant.tip) + row.plate);
        const float opacity = sight.opacity(mesh, {-100, -100, 0}, {100, 100, 0}, placed);
        EXPECT_GE(opacity, row.least) << row.what;
        EXPECT_LE(opacity, row.most) << row.what;
    }
}

// A body that moves in before the cut does not go at one stroke.
TEST(SightLines, FadeStepByStep) {
    const auto trial = pictureJob();
    const SceneInstant instant = atTheCut(*trial);
    Camera camera;
    camera.target = inScene(instant.tip);
    const SightLines sight(instant, {}, camera);
    float before = 1;
    int between = 0;
    for (float x = -110; x <= -90; x += 0.25f) {
        const glm::vec3 at = inScene(instant.tip) + 200.0f * camera.direction() + glm::vec3(x, 0, 0);
        const float opacity = sight.opacity(plate(), {-100, -100, 0}, {100, 100, 0}, glm::translate(glm::mat4(1), at));
        EXPECT_LE(opacity, before + 1e-6f);
        between += opacity < 0.99f && opacity > 0.25f;
        before = opacity;
    }
    EXPECT_GE(between, 2);
    EXPECT_LT(before, 0.3f);
}

TEST(SightLines, LetAToolFarFromTheBarBe) {
    const auto trial = pictureJob();
    SceneInstant instant = atTheCut(*trial);
    instant.tip.r += 200;
    Camera camera;
    camera.target = inScene(instant.tip);
    const SightLines sight(instant, {}, camera);
    const glm::mat4 before = glm::translate(glm::mat4(1), inScene(instant.tip) + 200.0f * camera.direction());
    EXPECT_EQ(sight.opacity(plate(), {-100, -100, 0}, {100, 100, 0}, before), 1);
}

// Where a ray runs through what a cutaway has emptied.
TEST(Cutaway, IsPassedThroughWhereItIsEmpty) {
    struct Pass {
        Cutaway cutaway;
        glm::vec3 from, way;
        float in, out;
    };
    for (const Pass& row :
         {Pass{Cutaway::None, {0, 5, 100}, {0, 0, -1}, 0, 0}, Pass{Cutaway::Half, {0, 5, 100}, {0, 0, -1}, 0, 100},
          Pass{Cutaway::Quarter, {0, 5, 100}, {0, 0, -1}, 0, 100},
          Pass{Cutaway::Quarter, {0, -5, 100}, {0, 0, -1}, 0, 0},
          Pass{Cutaway::Quarter, {0, -50, 30}, {0, 1, 0}, 50, 1e6f},
          Pass{Cutaway::Half, {0, 5, -100}, {0, 0, 1}, 100, 1e6f}}) {
        const Stretch found = throughCutaway(row.cutaway, {row.from, row.way});
        EXPECT_FLOAT_EQ(found.from, row.in);
        EXPECT_FLOAT_EQ(found.to, row.out);
    }
}

}  // namespace
}  // namespace firstoff::gui
