// What a poor graphics driver refuses, as far as software OpenGL can play one; and a context that is lost.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

#include "gui/gl/depth_map.h"
#include "gui/gl/offscreen.h"
#include "gui/gl/picture.h"
#include "gui/scene/lathe_scene.h"
#include "tests/gui/picture_job.h"
#include "tests/gui/window_bench.h"

namespace firstoff::gui {
namespace {

// FIRSTOFF_GL_REFUSE for one test.
class Refusing {
public:
    explicit Refusing(const char* what) { setenv("FIRSTOFF_GL_REFUSE", what, 1); }
    ~Refusing() { unsetenv("FIRSTOFF_GL_REFUSE"); }
    Refusing(const Refusing&) = delete;
    Refusing& operator=(const Refusing&) = delete;
};

struct Refusal {
    const char* refused;
    const char* drawnInstead;  // as the message names it; empty: nothing is told
};

class Drivers : public testing::TestWithParam<Refusal> {};

TEST_P(Drivers, AreGoneAroundLevelByLevel) {
    setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);
    const Refusing refusing(GetParam().refused);
    const OffscreenContext context;
    const auto trial = pictureJob();
    StockCursor cursor(trial->stock);
    LatheScene scene;
    scene.setTrial(trial);
    const SceneInstant instant = scene.at(60, &cursor);
    Picture picture;
    picture.begin(320, 200, Edges::Fine);
    scene.draw(instant, scene.view(ViewName::Part, instant), {}, 320, 200);
    picture.finish();
    EXPECT_EQ(glGetError(), GLenum{GL_NO_ERROR});
    const Image image = picture.read();
    const auto [dark, bright] = std::minmax_element(image.rgb.begin(), image.rgb.end());
    EXPECT_GT(*bright - *dark, 100) << "nothing was drawn";  // metal before a dark ground
    const std::string told = scene.trouble();
    if (std::string(GetParam().drawnInstead).empty()) {
        EXPECT_EQ(told, "");
    } else {
        EXPECT_THAT(told, testing::HasSubstr(std::string(GetParam().drawnInstead) + " is drawn instead"));
    }
}

INSTANTIATE_TEST_SUITE_P(Kinds, Drivers,
                         testing::Values(Refusal{"", ""}, Refusal{"MULTISAMPLE", ""}, Refusal{"OCCLUSION", "fine"},
                                         Refusal{"SHADOWS OCCLUSION", "plain"}));

TEST(Drivers, TellTheLimitOfAPictureThatIsTooLarge) {
    setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);
    const OffscreenContext context;
    const int most = largestPicture();
    try {
        const Framebuffer tooWide(most + 1, 16);
        ADD_FAILURE() << "a picture above the limit";
    } catch (const GraphicsError& error) {
        EXPECT_THAT(error.what(), testing::HasSubstr(std::to_string(most)));
    }
    DepthMap map(DepthMap::Read::Compared);
    EXPECT_FALSE(map.resize(most + 1, 16));
    EXPECT_TRUE(map.resize(64, 16));
}

TEST(Drivers, AreChosenByWords) {
    EXPECT_EQ(glDeviceNamed("any"), GlDevice{});
    EXPECT_EQ(glDeviceNamed("software"), (GlDevice{GlDevice::Kind::Software, 0}));
    EXPECT_EQ(glDeviceNamed("2"), (GlDevice{GlDevice::Kind::Number, 2}));
    for (const char* text : {"-1", "second", "1x"}) EXPECT_THROW(glDeviceNamed(text), GraphicsError) << text;
    EXPECT_THROW(OffscreenContext(GlDevice{GlDevice::Kind::Number, 999}), GraphicsError);
}

// The window's OpenGL goes and comes again: what stood in it, unsaved text too, is there in the next one.
TEST(LostContext, LosesNothingOfTheSession) {
    const std::filesystem::path job = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/coupling-spigot.nc";
    std::optional<Session> kept;
    std::string text;
    {
        WindowBench first(job);
        first.app().setTime(40);
        first.frames(2);
        const ImVec2 line = WindowBench::line(1);
        first.click(line.x, line.y);
        first.type("(TYPED)");
        first.settle();
        kept = first.session();
        text = kept->document.text();
    }
    WindowBench second(job);
    second.app().takeUp(*kept);
    second.frames(3);
    EXPECT_EQ(second.session().document.text(), text);
    EXPECT_THAT(text, testing::HasSubstr("TYPED"));
    EXPECT_TRUE(second.session().modified());
    EXPECT_EQ(second.session().timeS, kept->timeS);
    EXPECT_EQ(&second.trial(), kept->trial());
    second.picture();
    EXPECT_EQ(glGetError(), GLenum{GL_NO_ERROR});
}

struct Size {
    int width, height;
};

TEST(Windows, DrawSmallAndLarge) {
    const std::filesystem::path job = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/coupling-spigot.nc";
    WindowBench bench(job);
    for (const Size size : {Size{320, 240}, Size{3840, 2160}}) {
        bench.resize(size.width, size.height);
        bench.frames(3);
        const Image image = bench.picture();
        EXPECT_EQ(image.width, size.width);
        EXPECT_EQ(glGetError(), GLenum{GL_NO_ERROR}) << size.width;
    }
}

}  // namespace
}  // namespace firstoff::gui
