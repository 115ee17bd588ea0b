// Clearances in the whole window, as a user comes to them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>

#include "gui/clearance_words.h"
#include "gui/file_io.h"
#include "gui/measure.h"
#include "gui/scene/scene_instant.h"
#include "sim/output/clearance_report.h"
#include "tests/gui/job_folder.h"
#include "tests/gui/window_bench.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

// Line 6 drives the tool along the bar into the jaws, which stand 89 mm behind the datum and reach to a diameter of
// 150.
constexpr const char* kCrash =
    "O0001 (INTO THE JAWS)\nG21 G40 G99\nT0101\nG97 S500 M03\nG00 X100. Z5.\nG00 Z-95.\nG00 X260.\nG28 U0 W0\nM30\n";
constexpr std::uint32_t kCrashLine = 6;

// Where things stand at 1280 x 800.
const ImVec2 kPickFirst{298, 30};  // from the corner of the page
const ImVec2 kOnJaw{262, 80}, kOnBar{700, 260};
constexpr float kLanesFrom = 66, kLanesTo = 1270, kClearanceLane = 704;

class ClearancesInTheWindow : public JobFolder {
protected:
    ClearancesInTheWindow()
        : JobFolder(kCrash, readWholeFile(fs::path(FIRSTOFF_SOURCE_DIR) / "assets/jobs/coupling-spigot.toml")) {}

    // Of the crash, the first contact.
    static std::size_t contactOf(const Trial& trial) {
        for (std::size_t i = 0; i < trial.clearance.encounters.size(); ++i) {
            if (trial.clearance.encounters[i].gapMm <= 0) return i;
        }
        ADD_FAILURE() << "no contact was found";
        return 0;
    }
    // Pixels in the red of the line round bodies that touch.
    static int redPixels(const Image& image) {
        int count = 0;
        for (std::size_t i = 0; i + 2 < image.rgb.size(); i += 3) {
            const bool inPicture = (i / 3) % 1280 > 225 && (i / 3) % 1280 < 925 && (i / 3) / 1280 < 520;
            count += inPicture && image.rgb[i] > 190 && image.rgb[i + 1] < 70 && image.rgb[i + 2] < 80;
        }
        return count;
    }
};

TEST_F(ClearancesInTheWindow, AMarkInTheLaneGoesToTheContact) {
    WindowBench window(folder / "job.nc");
    ASSERT_FALSE(window.trial().clearance.encounters.empty());
    const std::size_t contact = contactOf(window.trial());
    const Encounter& encounter = window.trial().clearance.encounters[contact];
    EXPECT_EQ(lineOfMove(window.trial(), encounter.timedMove), kCrashLine);
    EXPECT_LT(redPixels(window.picture()), 20);  // nothing touches at the start
    const double share = encounter.timeS / window.app().cycleTimeS();
    window.click(kLanesFrom + static_cast<float>(share) * (kLanesTo - kLanesFrom), kClearanceLane);
    window.frames(40);  // the camera has come there
    ASSERT_TRUE(window.session().encounter);
    const Encounter& shown = window.trial().clearance.encounters[*window.session().encounter];
    EXPECT_LE(shown.gapMm, 0);
    EXPECT_DOUBLE_EQ(window.session().timeS, shown.timeS);
    EXPECT_GT(redPixels(window.picture()), 300);
    window.press(Key::Home);
    EXPECT_FALSE(window.session().encounter);  // time has moved on
}

TEST_F(ClearancesInTheWindow, ARowAndAMarginGoToWhereTheyAre) {
    WindowBench window(folder / "job.nc");
    window.openPage("Clearances");
    const Rect page = window.app().pagePlace();
    // Rows stand somewhere under the summary.
    for (float y = page.y + 59; y < page.bottom() && !window.session().encounter; y += 8) window.click(page.x + 28, y);
    ASSERT_TRUE(window.session().encounter);
    const Encounter& shown = window.trial().clearance.encounters[*window.session().encounter];
    EXPECT_DOUBLE_EQ(window.session().timeS, shown.timeS);
    EXPECT_EQ(window.session().measure[0], kNoBody);
    window.moveTo(page.x + 168, page.y + 102);
    window.wheel(-3);
    for (float y = page.y + 6; y < page.bottom() && window.session().measure[0] == kNoBody; y += 6) {
        for (float x : {68.0f, 113.0f, 158.0f, 208.0f, 308.0f}) window.click(page.x + x, y);
    }
    ASSERT_NE(window.session().measure[0], kNoBody);
    EXPECT_NE(window.session().measure[1], kNoBody);
    window.frames(2);
    ASSERT_TRUE(window.session().measured);
}

TEST_F(ClearancesInTheWindow, MeasuresBetweenBodiesThatArePicked) {
    WindowBench window(folder / "job.nc");
    window.openPage("Bodies");
    const Rect page = window.app().pagePlace();
    window.click(page.x + kPickFirst.x, page.y + kPickFirst.y);
    EXPECT_EQ(window.session().picking, 0);
    window.click(kOnJaw.x, kOnJaw.y);
    ASSERT_NE(window.session().measure[0], kNoBody);
    EXPECT_EQ(bodyTitle(window.trial(), window.session().measure[0]), "the jaws");
    EXPECT_EQ(window.session().picking, 1);  // and on to the second
    EXPECT_FALSE(window.session().measured);
    window.click(kOnBar.x, kOnBar.y);
    EXPECT_EQ(window.session().measure[1], 0);  // the billet
    EXPECT_EQ(window.session().picking, -1);
    window.frames(2);
    ASSERT_TRUE(window.session().measured);
    EXPECT_EQ(window.session().measured->gap, 0);  // what grips touches what it holds
}

TEST_F(ClearancesInTheWindow, IsDrawnInEverySize) {
    WindowBench window(folder / "job.nc");
    for (const char* tab : {"Clearances", "Bodies"}) {
        window.resize(1280, 800);
        window.frames(1);
        window.openPage(tab);
        for (const auto& [width, height] : {std::pair{320, 240}, {640, 400}, {1024, 700}, {1280, 540}, {3840, 2160}}) {
            window.resize(width, height);
            window.frames(2);
            EXPECT_EQ(window.picture().width, width);
        }
    }
}

TEST_F(ClearancesInTheWindow, BodiesLeftOutStayLeftOut) {
    ViewSettings view;
    view.hiddenBodies = kindBit(BodyKind::Guard) | kindBit(BodyKind::TurretDisc);
    const std::string text = writeViewSettings(view);
    EXPECT_THAT(text, HasSubstr(name(BodyKind::TurretDisc)));
    EXPECT_EQ(readViewSettings(text), view);
    EXPECT_EQ(readViewSettings("hidden = [\"no such body\", 3]").hiddenBodies, 0u);
}

// Against figures of the set-up: distances along Z of what stands on one axis, and of the tip from the bar.
TEST(BodyMeasure, TellsDistancesThatCanBeReckonedByHand) {
    firstoff::Setup setup = shop::barStock(50, 60);  // jaws from z = 0 to 30, bar to 90, Z0 at 89
    shop::addTurningTool(setup, 1, 'C', 0.8);
    Tailstock tailstock;
    tailstock.centreRadius = 14;
    tailstock.centreAngle = 1;
    tailstock.quillRadius = 30;
    tailstock.quillLength = 100;
    tailstock.tipZ = 400;
    setup.tailstock = tailstock;
    const auto trial = runTrial(readProgram("G21 G40 G99\nT0101\nG97 S500 M03\nG00 X80. Z40.\nM30\n", "job.nc"), setup);
    StockCursor cursor(trial->stock);
    const SpindleTurn spindle(trial->timeline, trial->toolpath);
    const SceneInstant instant = instantAt(*trial, &cursor, spindle, trial->timeline.cycleTimeS);
    BodyMeasure measure(trial);
    const auto index = [&](BodyKind kind) {
        const auto& bodies = trial->clearance.bodies->bodies;
        for (std::size_t i = 0; i < bodies.size(); ++i) {
            if (bodies[i].kind == kind) return static_cast<int>(i);
        }
        return kNoBody;
    };
    const Nearness tail = measure.between(index(BodyKind::Jaws), index(BodyKind::Centre), instant);
    EXPECT_NEAR(tail.gap, 400 - 30, kNearnessMm);
    EXPECT_NEAR(tail.onSecond.z, 400, 1e-3);
    // The tip stands 40 in front of the datum, which is 1 behind the front of the bar, and 15 above the bar's radius:
    // the nose, 0.8 round, is nearest to its front corner.
    const Nearness edge = measure.between(index(BodyKind::Edge), 0, instant);
    const double centreZ = 39 + 0.8, centreR = 15 + 0.8;
    EXPECT_NEAR(edge.gap, std::hypot(centreZ, centreR) - 0.8, 0.005);  // half a pitch of the columns, 0.002
    const Nearness back = measure.between(0, index(BodyKind::Edge), instant);
    EXPECT_EQ(back.gap, edge.gap);
    EXPECT_EQ(back.onFirst, edge.onSecond);
    EXPECT_FALSE(std::isfinite(measure.between(3, 3, instant).gap));
}

}  // namespace
}  // namespace firstoff::gui
