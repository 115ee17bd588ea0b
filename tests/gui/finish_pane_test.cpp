// The finish of surfaces in the whole window, as a user comes to it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "gui/file_io.h"
#include "gui/picture_shell.h"
#include "tests/gui/window_bench.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

const fs::path kSpigot = fs::path(FIRSTOFF_SOURCE_DIR) / "assets/jobs/coupling-spigot.nc";
constexpr int kSpigotLine = 21, kFacingLine = 14, kClampLine = 11, kIndexLine = 54;

// Where things stand at 1280 x 800 in the view of the part at the end of the cycle.
const ImVec2 kOnSpigot{830, 265}, kOnBar{350, 250}, kBesideAll{700, 480};

TEST(FinishPane, TellsTheFinishOfASurfaceThatIsPicked) {
    WindowBench window(kSpigot);
    window.press(Key::End);
    EXPECT_FALSE(window.session().finishWanted);  // nobody has asked
    window.doubleClick(kOnSpigot.x, kOnSpigot.y);
    window.settleFinish();
    const Session& session = window.session();
    ASSERT_TRUE(session.picked);
    EXPECT_EQ(session.picked->block, static_cast<BlockId>(kSpigotLine - 1));
    EXPECT_NEAR(session.picked->place.r, 12.5, 0.05);     // mm; the section drawn is within a third of a pixel
    EXPECT_LT(session.timeS, window.app().cycleTimeS());  // gone to the cut itself
    ASSERT_TRUE(session.finish && session.finish->report);
    const FinishReport& report = *session.finish->report;
    EXPECT_EQ(report.trouble, "");
    // As when it was picked: on the piece that has come off, though the time shown is now before that.
    EXPECT_EQ(report.piece, 1);
    const auto all = finishOfBlock(window.trial(), kSpigotLine - 1);
    EXPECT_EQ(report.roughness.ra, all.at(0).roughness.ra);
}

TEST(FinishPane, FollowsTheLineThatIsChosenWhileItIsInSight) {
    WindowBench window(kSpigot, 1280, 900);  // so that all the lines are in sight
    window.openPage("Finish");
    const ImVec2 facing = WindowBench::line(kFacingLine), clamp = WindowBench::line(kClampLine);
    window.click(clamp.x, clamp.y);
    window.settleFinish();
    ASSERT_TRUE(window.session().finish);
    EXPECT_EQ(window.session().finish->question.block, static_cast<BlockId>(kClampLine - 1));
    EXPECT_FALSE(window.session().finish->report);  // it cuts nothing
    window.click(facing.x, facing.y);
    window.settleFinish();
    ASSERT_TRUE(window.session().finish->report);
    EXPECT_EQ(window.session().finish->question.block, static_cast<BlockId>(kFacingLine - 1));
    EXPECT_EQ(window.session().finish->report->span.side, SurfaceSpan::Side::FrontFace);
    window.openPage("Findings");
    window.frames(2);
    EXPECT_FALSE(window.session().finishWanted);
}

TEST(FinishPane, HasNoFinishForBarThatNoToolHasTouched) {
    WindowBench window(kSpigot);
    window.press(Key::End);
    window.doubleClick(kOnBar.x, kOnBar.y);
    window.settleFinish();
    ASSERT_TRUE(window.session().picked);
    EXPECT_EQ(window.session().picked->block, kNoBlock);
    EXPECT_FALSE(window.session().finishWanted);
    EXPECT_DOUBLE_EQ(window.session().timeS, window.app().cycleTimeS());  // there is no cut to go to
    window.press(Key::Home);
    EXPECT_FALSE(window.session().picked);
    window.doubleClick(kBesideAll.x, kBesideAll.y);
    EXPECT_FALSE(window.session().picked);
}

TEST(FinishPane, IsDrawnInEverySize) {
    WindowBench window(kSpigot);
    window.press(Key::End);
    window.doubleClick(kOnSpigot.x, kOnSpigot.y);
    window.settleFinish();
    for (const auto& [width, height] : {std::pair{320, 240}, {640, 400}, {1024, 700}, {1280, 540}, {3840, 2160}}) {
        window.resize(width, height);
        window.frames(2);
        EXPECT_EQ(window.picture().width, width);
    }
}

// In a low window the program stands in the same place, and a pick keeps its line in sight.
TEST(FinishPane, LeavesTheProgramInSightInALowWindow) {
    WindowBench window(kSpigot, 1280, 540);
    window.press(Key::End);
    window.doubleClick(830, 150);
    window.frames(2);
    EXPECT_FALSE(window.session().finishWanted);
}

class FinishPictureFile : public testing::Test {
protected:
    FinishPictureFile() {
        startup.program = kSpigot;
        startup.picture = folder / "finish.png";
        startup.finishView = true;
        startup.width = 480;
        startup.height = 300;
    }
    const shop::WorkFolder folder;
    Startup startup;
};

TEST_F(FinishPictureFile, ShowsTheSurfaceOfALine) {
    startup.atLine = kSpigotLine;
    drawPicture(startup);
    EXPECT_GT(fs::file_size(*startup.picture), 10'000u);  // a plain ground alone takes less than that
}

TEST_F(FinishPictureFile, SaysWhatHasNoFinish) {
    startup.atLine = kIndexLine;
    try {
        drawPicture(startup);
        ADD_FAILURE() << "drew something";
    } catch (const FileError& error) {
        EXPECT_THAT(error.what(), HasSubstr("line 54"));
    }
    EXPECT_FALSE(fs::exists(*startup.picture));
}

}  // namespace
}  // namespace firstoff::gui
