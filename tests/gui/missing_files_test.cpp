// Files that the window counts on and does not find.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <string>

#include "tests/gui/window_bench.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

// A folder with nothing in it, named by an environment variable for one test.
class Empty {
public:
    explicit Empty(const char* variable) : variable_(variable) { setenv(variable, folder_.path().c_str(), 1); }
    ~Empty() { unsetenv(variable_); }
    Empty(const Empty&) = delete;
    Empty& operator=(const Empty&) = delete;

private:
    const char* variable_;
    shop::WorkFolder folder_;
};

const fs::path kJob = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/coupling-spigot.nc";

TEST(MissingFiles, WithoutItsTypefacesTheWindowSaysSoAndWorks) {
    const Empty fonts("FIRSTOFF_FONTS");
    WindowBench window(kJob);
    EXPECT_TRUE(window.app().fonts().fallback);
    EXPECT_THAT(window.session().message, HasSubstr("fonts-dejavu-core"));
    EXPECT_EQ(window.trial().verdict, Verdict::Clear);
    const ImVec2 at = WindowBench::line(9);
    window.click(at.x, at.y);
    EXPECT_GT(window.session().timeS, 0);
    window.resize(320, 240);
    window.frames(3);
    EXPECT_EQ(window.picture().width, 320);
    EXPECT_EQ(glGetError(), GLenum{GL_NO_ERROR});
}

TEST(MissingFiles, WithoutItsAssetsTheWindowSaysSoAndOpensWhatItIsGiven) {
    const Empty assets("FIRSTOFF_ASSETS");
    {
        WindowBench window(fs::path{});
        EXPECT_THAT(window.session().message, HasSubstr("The demo job was not found."));
        EXPECT_EQ(window.session().trial(), nullptr);
        window.openPage("Lessons");
        window.frames(3);
        EXPECT_EQ(glGetError(), GLenum{GL_NO_ERROR});
    }
    WindowBench window(kJob);
    EXPECT_EQ(window.trial().verdict, Verdict::Clear);
}

}  // namespace
}  // namespace firstoff::gui
