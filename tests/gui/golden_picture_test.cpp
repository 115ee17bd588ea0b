// Pictures of the lathe against ones that somebody has looked at. To renew them after a change that is meant, run
// tests/golden/refresh, look at the pictures, and only then commit them.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "gui/gl/offscreen.h"
#include "gui/gl/picture.h"
#include "gui/scene/lathe_scene.h"
#include "tests/gui/golden.h"
#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

constexpr int kWidth = 480, kHeight = 300;

struct Row {
    const char* name;
    ViewName view;
    double timeS;
    bool tailstock;
    Edges edges;
    SceneOptions options;
    const char* job = nullptr;  // of assets/jobs; the spigot of picture_job.h if null
};

SceneOptions options(Cutaway cutaway, Colouring colouring, bool dark) {
    SceneOptions result;
    result.cutaway = cutaway;
    result.colouring = colouring;
    result.dark = dark;
    return result;
}

SceneOptions outlining(std::array<int, 2> bodies) {
    SceneOptions result;
    result.outlined = bodies;
    return result;
}

class GoldenPicture : public testing::TestWithParam<Row> {};

Image drawn(const Row& row) {
    const std::shared_ptr<const Trial> trial = row.job ? demoJob(row.job) : pictureJob(row.tailstock);
    StockCursor cursor(trial->stock);
    LatheScene scene;
    scene.setTrial(trial);
    const SceneInstant instant = scene.at(row.timeS, &cursor);
    Picture picture;
    picture.begin(kWidth, kHeight, row.edges);
    scene.draw(instant, scene.view(row.view, instant, static_cast<float>(kWidth) / kHeight), row.options, kWidth,
               kHeight);
    picture.finish();
    return picture.read();
}

TEST_P(GoldenPicture, LooksAsItDidWhenSomebodyLooked) {
    const Row& row = GetParam();
    setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);  // one driver for all machines, as far as that goes
    const OffscreenContext context;
    if (!isSoftwareOpenGl())
        GTEST_SKIP() << "golden pictures are those of software OpenGL, not of " << describeOpenGl();
    expectGolden(row.name, drawn(row));
}

INSTANTIATE_TEST_SUITE_P(Views, GoldenPicture,
                         testing::Values(Row{"machine-roughing", ViewName::Machine, 30, true, Edges::Fine,
                                             options(Cutaway::None, Colouring::Metal, true)},
                                         Row{"part-section", ViewName::Part, 110, false, Edges::Fine,
                                             options(Cutaway::Quarter, Colouring::Metal, false)},
                                         Row{"tool-by-colour", ViewName::Tool, 77, false, Edges::Quick,
                                             options(Cutaway::None, Colouring::Tool, true)},
                                         Row{"end-on", ViewName::EndOn, 30, true, Edges::Fine,
                                             options(Cutaway::None, Colouring::Metal, true)},
                                         Row{"hexagon-half-turned", ViewName::Part, 20, false, Edges::Fine,
                                             options(Cutaway::None, Colouring::Metal, true), "drain-plug"},
                                         Row{"thread", ViewName::Part, 78, false, Edges::Fine,
                                             options(Cutaway::None, Colouring::Metal, true), "drain-plug"},
                                         Row{"thread-section", ViewName::Part, 78, false, Edges::Fine,
                                             options(Cutaway::Half, Colouring::Metal, false), "drain-plug"},
                                         // Of bodies 2 and 0, jaws and billet, as if they were what touches.
                                         Row{"outlined", ViewName::Machine, 30, true, Edges::Fine, outlining({2, 0})},
                                         Row{"parted-piece", ViewName::Part, 97, false, Edges::Fine,
                                             options(Cutaway::None, Colouring::Metal, true), "drain-plug"},
                                         Row{"second-side", ViewName::Part, 16, false, Edges::Fine,
                                             options(Cutaway::None, Colouring::Metal, true), "drain-plug-head"}),
                         [](const testing::TestParamInfo<Row>& row) {
                             std::string name = row.param.name;
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

// What no golden picture shows: sizes and instants at the limits draw without an error of OpenGL.
TEST(LatheScene, DrawsInAnySizeAndAtAnyTime) {
    setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);
    const OffscreenContext context;
    const std::shared_ptr<const Trial> trial = pictureJob();
    StockCursor cursor(trial->stock);
    LatheScene scene;
    Picture picture;
    struct Size {
        int width, height;
    };
    for (const Size size : {Size{1, 1}, Size{320, 240}, Size{40, 700}, Size{3840, 60}}) {
        for (const std::shared_ptr<const Trial>& shown : {std::shared_ptr<const Trial>{}, trial}) {
            scene.setTrial(shown);
            for (double timeS : {0.0, 1e9}) {
                const SceneInstant instant = scene.at(timeS, shown ? &cursor : nullptr);
                const Camera camera = scene.view(ViewName::Machine, instant,
                                                 static_cast<float>(size.width) / static_cast<float>(size.height));
                for (Edges edges : {Edges::Fine, Edges::Quick}) {
                    picture.begin(size.width, size.height, edges);
                    scene.draw(instant, camera, {}, size.width, size.height);
                    picture.finish();
                    EXPECT_EQ(glGetError(), GLenum{GL_NO_ERROR}) << size.width << " x " << size.height;
                }
            }
        }
    }
}

TEST(LatheScene, PicksTheSurfaceUnderThePointerAndNothingElse) {
    setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);
    const OffscreenContext context;
    const std::shared_ptr<const Trial> trial = pictureJob();
    StockCursor cursor(trial->stock);
    LatheScene scene;
    scene.setTrial(trial);
    const SceneInstant instant = scene.at(110, &cursor);
    const Camera camera = scene.view(ViewName::Part, instant, 1.6f);
    Picture picture;
    picture.begin(800, 500, Edges::Quick);
    scene.draw(instant, camera, {}, 800, 500);
    picture.finish();
    // A spot of the finished shank, radius 10, seen square on: its middle line appears in front of the axis.
    const glm::vec2 shank = LatheScene::project({trial->setup.workOffsets[0].z - 10, 0}, camera, 800, 500);
    const auto pick = scene.pick(instant, camera, {}, shank, 800, 500);
    ASSERT_TRUE(pick);
    EXPECT_NEAR(pick->place.r, 10, 0.05);  // mm; the section drawn is within a third of a pixel
    ASSERT_NE(pick->cut, kUncut);
    const Move& move = trial->toolpath.moves[trial->timeline.moves[pick->cut].move];
    EXPECT_EQ(trial->toolpath.calls[move.call].station, 3);  // the finishing tool
    EXPECT_FALSE(scene.pick(instant, camera, {}, {790, 490}, 800, 500));
}

}  // namespace
}  // namespace firstoff::gui
