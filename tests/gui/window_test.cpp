// Tasks of a user in the whole window, without a display. What is checked is what the session holds afterwards.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <imgui_internal.h>

#include <cmath>
#include <fstream>

#include "gui/file_io.h"
#include "gui/picture_shell.h"
#include "tests/gui/job_folder.h"
#include "tests/gui/window_bench.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

constexpr int kFacing = 7;  // line of the facing cut
constexpr int kTurning = 9;

using Window = JobFolder;

TEST_F(Window, OpensAProgramWithTheSetupBesideIt) {
    WindowBench window(folder / "job.nc");
    EXPECT_EQ(window.session().setupPath, folder / "job.toml");
    EXPECT_EQ(window.session().message, "");
    EXPECT_EQ(window.trial().verdict, Verdict::Clear) << window.trial().findings.size() << " findings";
    EXPECT_EQ(window.session().timeS, 0);
    EXPECT_THAT(window.app().title(), HasSubstr("job.nc"));
}

// What the picture pane shows, without what stands around it.
std::vector<std::uint8_t> pane(WindowBench& window) {
    constexpr int kLeft = 230, kRight = 920, kTop = 60, kBottom = 480;
    const Image whole = window.picture();
    std::vector<std::uint8_t> shown;
    for (int y = kTop; y < kBottom; ++y) {
        const auto row = whole.rgb.begin() + 3 * static_cast<std::ptrdiff_t>(y) * whole.width;
        shown.insert(shown.end(), row + 3 * kLeft, row + 3 * kRight);
    }
    return shown;
}

// Whatever was on screen when it came: the picture is that of a window that had it from the start.
TEST_F(Window, FramesAnotherBarWhenItComes) {
    std::string shorter = shop::spigotSetupWithoutDrawing();
    const std::string sticksOut = "stick_out_mm = 90";
    const std::size_t at = shorter.find(sticksOut);
    ASSERT_NE(at, std::string::npos);
    std::ofstream(folder / "shorter.toml") << shorter.replace(at, sticksOut.size(), "stick_out_mm = 50");
    std::ofstream(folder / "shorter.nc") << kFaceAndTurn;
    std::vector<std::uint8_t> fresh;
    {
        WindowBench window(folder / "shorter.nc");
        window.frames(60);
        fresh = pane(window);
    }
    WindowBench window(folder / "job.nc");
    window.frames(60);
    EXPECT_FALSE(pane(window) == fresh);
    const auto before = window.session().outcome;
    window.app().dropFiles({folder / "shorter.toml"});
    for (int i = 0; i < 2000 && window.session().outcome == before; ++i) window.frames();
    ASSERT_NE(window.session().outcome, before);
    window.frames(60);
    EXPECT_TRUE(pane(window) == fresh);
}

TEST_F(Window, GoesToTheMomentOfALineThatIsClicked) {
    WindowBench window(folder / "job.nc");
    const ImVec2 at = WindowBench::line(kFacing);
    window.click(at.x, at.y);
    EXPECT_DOUBLE_EQ(window.session().timeS, window.trial().startOfBlock(kFacing - 1));
    EXPECT_EQ(window.session().chosen, static_cast<BlockId>(kFacing - 1));
}

TEST_F(Window, TurnsThePagesByKey) {
    WindowBench window(folder / "job.nc");
    EXPECT_STREQ(window.app().shownPage(), "findings");
    window.press(Key::PageDown, true);
    EXPECT_STREQ(window.app().shownPage(), "words");
    const ImVec2 at = WindowBench::line(kFacing);
    window.click(at.x, at.y);  // the program has the keyboard: its own caret stays
    const double before = window.session().timeS;
    window.press(Key::PageUp, true);
    window.press(Key::PageUp, true);
    EXPECT_STREQ(window.app().shownPage(), "mistakes");
    EXPECT_EQ(window.session().timeS, before);
}

// Bar 50, faced, turned to 40 for 20 mm.
TEST_F(Window, GaugesTheHalfSectionByKey) {
    WindowBench window(folder / "job.nc");
    window.press(Key::End);
    window.pressLetter('G');  // shows the half-section first
    window.frames(2);
    const auto gauged = [&] { return window.app().section().gauged(Measures(Units::Millimetres)); };
    EXPECT_EQ(gauged(), "");
    window.pressLetter('G');
    EXPECT_THAT(gauged(), HasSubstr("Z 0.000"));
    window.pressLetter('G');
    EXPECT_THAT(gauged(), HasSubstr("40.000"));
    window.pressLetter('M');  // the rounding that the nose leaves
    window.pressLetter('G');
    EXPECT_THAT(gauged(), HasSubstr("90.000")) << "to the shoulder";
    window.pressLetter('G');
    EXPECT_EQ(window.app().section().picked().size(), 2u);
    EXPECT_THAT(gauged(), HasSubstr("5.000"));  // from the turned diameter to the bar's, in radius
    for (int i = 0; i < 3; ++i) window.pressLetter('G', true);
    EXPECT_EQ(window.app().section().picked().size(), 2u);
    EXPECT_EQ(window.app().section().picked()[0], window.app().section().picked()[1]);
}

TEST_F(Window, TurnsShiftsAndNearsThePictureByKey) {
    WindowBench window(folder / "job.nc");
    window.frames(60);
    std::vector<std::vector<std::uint8_t>> seen{pane(window)};
    const auto differs = [&] {
        window.frames(30);
        seen.push_back(pane(window));
        return seen.back() != seen[seen.size() - 2];
    };
    window.press(Key::Right, false, true);
    EXPECT_TRUE(differs()) << "turned";
    window.press(Key::Up, false, true);
    EXPECT_TRUE(differs()) << "from above";
    window.press(Key::Left, true);
    EXPECT_TRUE(differs()) << "shifted";
    window.press(Key::PageUp);
    EXPECT_TRUE(differs()) << "nearer";
    EXPECT_EQ(window.session().timeS, 0) << "the arrows' own meaning";
    // And back, which leaves it as it was.
    window.press(Key::PageDown);
    window.press(Key::Right, true);
    window.press(Key::Down, false, true);
    window.press(Key::Left, false, true);
    window.frames(30);
    const std::vector<std::uint8_t> back = pane(window);
    std::size_t off = 0;
    for (std::size_t i = 0; i < back.size(); ++i) off += std::abs(back[i] - seen.front()[i]) > 8;
    EXPECT_LT(off, back.size() / 200) << "but for what rounding moves along the edges";
}

// As one line: each would be a shape of its own else, of at least four corners.
TEST_F(Window, DrawsThousandsOfShortMovesAsOneWayInTheHalfSection) {
    constexpr int kMoves = 3000;
    std::string text = "O0002 (FINE STEPS)\nG21 G40 G99\nG50 S2800\nT0101\nG96 S200 M03\nG00 X49. Z1. M08\n";
    for (int i = 1; i <= kMoves; ++i)
        text += fmt::format("G01 X{:.3f} Z{:.3f} F0.2\n", 49 + 0.02 * (i % 2), 1 - 0.01 * i);
    folder.put("fine.nc", text + "G00 X54.\nG28 U0 W0\nM30\n");
    folder.put("fine.toml", shop::spigotSetupWithoutDrawing());
    WindowBench window(folder / "fine.nc");
    window.press(Key::End);
    const auto corners = [&](bool ways) {
        ViewSettings view = window.session().view;
        view.section.shown = SectionSettings::Shown::SectionOnly;
        view.section.paths = ways;
        window.app().carryOut(ChangeView{view});
        window.frames(3);
        return ImGui::GetDrawData()->TotalVtxCount;
    };
    const int without = corners(false), with = corners(true);
    EXPECT_GT(with, without) << "the ways are drawn";
    EXPECT_LT(with - without, 4 * kMoves / 2);
}

// At thirty frames a second a frame more would be felt.
TEST_F(Window, ShowsTheTimeUnderTheMouseInTheFrameThatReadsIt) {
    WindowBench window(folder / "job.nc");
    const Rect lanes = window.app().timelinePlace();
    const auto to = [&](float share) {
        ImGui::GetIO().MousePos = {lanes.x + share * lanes.w, lanes.y + 14};
        window.frames(1);
    };
    to(0.5f);
    ImGui::GetIO().MouseDown[0] = true;
    to(0.5f);
    double before = window.app().instant().timeS;
    for (const float share : {0.6f, 0.45f, 0.9f}) {
        to(share);
        EXPECT_NE(window.session().timeS, before);
        EXPECT_EQ(window.app().instant().timeS, window.session().timeS) << share;
        before = window.session().timeS;
    }
    ImGui::GetIO().MouseDown[0] = false;
    window.frames(2);
}

TEST_F(Window, ShowsTheTrialOfTheTextAsItIsEdited) {
    WindowBench window(folder / "job.nc");
    const double before = window.trial().timeline.cycleTimeS;
    const ImVec2 at = WindowBench::line(kTurning);
    window.click(at.x, at.y);
    window.press(Key::End);
    window.press(Key::Backspace);
    window.press(Key::Backspace);
    window.type("5.");  // Z-20. becomes Z-25.
    EXPECT_TRUE(window.session().modified());
    EXPECT_TRUE(window.session().stale());
    window.frames(15);  // longer than the rest before a trial starts: 0.15 s
    window.settle();
    EXPECT_THAT(window.session().document.text(), HasSubstr("G01 Z-25.\n"));
    EXPECT_GT(window.trial().timeline.cycleTimeS, before);
    // Still at the line that was edited.
    EXPECT_DOUBLE_EQ(window.session().timeS, window.trial().startOfBlock(kTurning - 1));
    for (int i = 0; i < 3; ++i) window.pressCtrl('Z');
    window.frames(15);
    window.settle();
    EXPECT_EQ(window.session().document.text(), kFaceAndTurn);
    EXPECT_FALSE(window.session().modified());
    EXPECT_DOUBLE_EQ(window.trial().timeline.cycleTimeS, before);
}

TEST_F(Window, KeepsKeysAndCharactersOfOneFrameInOrder) {
    WindowBench window(folder / "job.nc");
    const ImVec2 at = WindowBench::line(1);
    window.click(at.x, at.y);
    const auto character = [&](char c) {
        InputEvent event;
        event.character = static_cast<char32_t>(c);
        window.app().input(event);
    };
    const auto key = [&](Key which) {
        InputEvent event;
        event.key = which;
        window.app().input(event);
    };
    key(Key::Home);
    character('A');
    key(Key::Enter);
    character('B');
    key(Key::Left);
    character('C');
    window.frames(1);
    EXPECT_THAT(window.session().document.text(), testing::StartsWith("A\nCBO0001"));
}

TEST_F(Window, StepsOverBlocksAndPlaysToTheEnd) {
    WindowBench window(folder / "job.nc");
    std::vector<double> times;
    for (int i = 0; i < 8; ++i) {
        window.press(Key::Right);
        times.push_back(window.session().timeS);
    }
    EXPECT_TRUE(std::is_sorted(times.begin(), times.end()));
    EXPECT_GT(times.back(), 0);
    window.press(Key::Left);
    EXPECT_LE(window.session().timeS, times.back());
    window.press(Key::End);
    EXPECT_DOUBLE_EQ(window.session().timeS, window.app().cycleTimeS());
    window.press(Key::Space);  // from the end it plays from the start
    EXPECT_TRUE(window.session().playing);
    window.frames(30);
    EXPECT_NEAR(window.session().timeS, 0.5, 0.05);  // 30 frames of 1/60 s; within three frames
    window.press(Key::Space);
    EXPECT_FALSE(window.session().playing);
}

TEST_F(Window, ScrubsZoomsAndShiftsTheTimeline) {
    WindowBench window(folder / "job.nc");
    window.drag(200, 660, 668, 660);  // the middle of the lanes, which run from 66 to 1270
    const double cycle = window.app().cycleTimeS();
    EXPECT_NEAR(window.session().timeS, cycle * (668 - 66) / (1270 - 66), 0.01 * cycle);  // a few pixels
    const double before = window.session().timeS;
    window.wheel(5);
    window.drag(668, 660, 668, 661);
    EXPECT_NEAR(window.session().timeS, before, 0.01 * cycle);  // zoomed about the mouse
    window.drag(668, 660, 568, 660, 1);                         // shifted by 100 px: later times come under the mouse
    window.drag(668, 660, 668, 661);
    EXPECT_GT(window.session().timeS, before + 0.01 * cycle);
}

TEST_F(Window, SavesByWritingTheWholeFileAnew) {
    WindowBench window(folder / "job.nc");
    const ImVec2 at = WindowBench::line(1);
    window.click(at.x, at.y);
    window.press(Key::Home);
    window.type("(NEW) ");
    window.pressCtrl('S');
    EXPECT_FALSE(window.session().modified());
    EXPECT_EQ(readWholeFile(folder / "job.nc"), std::string("(NEW) ") + kFaceAndTurn);
}

TEST_F(Window, AsksBeforeItThrowsAwayAnEdit) {
    WindowBench window(folder / "job.nc");
    const ImVec2 at = WindowBench::line(1);
    window.click(at.x, at.y);
    window.type("(X)");
    window.app().askToClose();
    window.frames(3);
    EXPECT_FALSE(window.app().closed());
    window.press(Key::Escape);
    window.frames(2);
    EXPECT_FALSE(window.app().closed());
    window.pressCtrl('Z');
    window.app().askToClose();
    window.frames(2);
    EXPECT_TRUE(window.app().closed());
}

TEST_F(Window, SavesFirstWhenTold) {
    WindowBench window(folder / "job.nc");
    const ImVec2 at = WindowBench::line(1);
    window.click(at.x, at.y);
    window.press(Key::Home);
    window.type("(X)");
    window.app().askToClose();
    window.frames(3);
    window.click(480, 430);  // Save, the first button of the question
    window.frames(3);
    EXPECT_TRUE(window.app().closed());
    EXPECT_EQ(readWholeFile(folder / "job.nc"), std::string("(X)") + kFaceAndTurn);
}

TEST_F(Window, TakesDroppedFilesProgramFirst) {
    std::ofstream(folder / "other.nc") << "G21\nM30\n";
    fs::copy_file(folder / "job.toml", folder / "bar.toml");
    WindowBench window(folder / "job.nc");
    window.app().dropFiles({folder / "bar.toml", folder / "other.nc"});
    window.frames(1);
    window.settle();
    EXPECT_EQ(window.session().programPath, folder / "other.nc");
    EXPECT_EQ(window.session().setupPath, folder / "bar.toml");
    EXPECT_EQ(window.session().document.text(), "G21\nM30\n");
}

TEST_F(Window, SaysInPlainWordsWhatItCannotOpen) {
    WindowBench window(folder / "job.nc");
    window.app().dropFiles({folder / "none.nc"});
    window.frames(2);
    EXPECT_THAT(window.session().message, HasSubstr("there is no such file"));
    EXPECT_EQ(window.session().programPath, folder / "job.nc");  // what was open stays
    EXPECT_EQ(window.session().document.text(), kFaceAndTurn);
    std::ofstream(folder / "alone.nc") << "G21\nM30\n";
    window.app().dropFiles({folder / "alone.nc"});
    window.frames(2);
    EXPECT_THAT(window.session().message, HasSubstr("no set-up file alone.toml"));
    EXPECT_THAT(window.session().message, HasSubstr("job.toml stays in use"));
}

TEST_F(Window, TakesTheSetupAskedForOrNone) {
    Startup startup;
    startup.program = folder / "job.nc";
    startup.setup = folder / "none.toml";
    startup.picture = folder / "picture.png";
    EXPECT_THROW(drawPicture(startup), FileError);
    EXPECT_FALSE(fs::exists(folder / "picture.png"));
    startup.setup = folder / "job.toml";
    startup.width = 640;
    startup.height = 400;
    drawPicture(startup);
    EXPECT_GT(fs::file_size(folder / "picture.png"), 10'000u);  // a plain ground alone takes less than that
}

TEST_F(Window, OpensWithThePagesItWasLeftWith) {
    const fs::path settings = folder / "view.toml";
    const auto pageAt = [&](int height) {
        WindowBench window(folder / "job.nc", 1280, height, {}, settings);
        return std::string(window.app().shownPage());
    };
    constexpr int kHigh = 800, kLow = 480;  // in the low one program and pages share a place
    EXPECT_EQ(pageAt(kHigh), "findings");
    EXPECT_EQ(pageAt(kLow), "program");
    {
        WindowBench window(folder / "job.nc", 1280, kHigh, {}, settings);
        window.openPage("Time");
    }
    {
        WindowBench window(folder / "job.nc", 1280, kLow, {}, settings);
        window.openPage("What if");
    }
    EXPECT_EQ(pageAt(kHigh), "time");
    EXPECT_EQ(pageAt(kLow), "what-if");
    Startup asked;
    asked.program = folder / "job.nc";
    asked.page = "sizes";
    asked.picture = "unused.png";
    asked.settingsFile = settings;
    { const WindowBench window(asked); }
    EXPECT_EQ(pageAt(kHigh), "time");  // what the command line asked for is nobody's habit
    std::ofstream(settings) << "page = \"gone\"\npage_in_low_window = 7\n";
    EXPECT_EQ(pageAt(kHigh), "findings");
    EXPECT_EQ(pageAt(kLow), "program");
}

TEST_F(Window, KeepsNoLooksThatTheCommandLineAskedFor) {
    const fs::path settings = folder / "view.toml";
    ViewSettings usual;
    usual.cutaway = 2;
    usual.units = Units::Inches;
    saveViewSettings(usual, settings);
    const ViewSettings before = loadViewSettings(settings);
    Startup asked;
    asked.program = folder / "job.nc";
    asked.picture = "unused.png";
    asked.settingsFile = settings;
    asked.chips = asked.projector = true;
    asked.dark = true;
    asked.cutaway = 1;
    asked.quality = QualityChoice::Plain;
    asked.section = SectionSettings::Shown::SectionOnly;
    asked.page = "sizes";  // asks for room as well
    { const WindowBench window(asked); }
    EXPECT_EQ(loadViewSettings(settings), before);
    {
        WindowBench window(asked);
        ViewSettings view = window.session().view;
        EXPECT_EQ(view.cutaway, 1);
        view.cutaway = 0;
        view.colouring = Colouring::Size;
        window.app().carryOut(ChangeView{view});
        window.frames(2);
    }
    ViewSettings after = before;  // but for what the user did
    after.cutaway = 0;
    after.colouring = Colouring::Size;
    EXPECT_EQ(loadViewSettings(settings), after);
}

// The half-section alone: the picture is asked all the same where things are nearest, of the trial that is shown.
TEST_F(Window, MeasuresWhereThePictureIsNotShown) {
    Startup asked;
    asked.program = folder / "job.nc";
    asked.section = SectionSettings::Shown::SectionOnly;
    asked.picture = "unused.png";
    WindowBench window(asked);
    const auto nearest = window.session().index()->clearance().nearest();
    ASSERT_TRUE(nearest);
    const Clearance& there = window.trial().clearance.perMove[*nearest];
    window.app().carryOut(ShowNearest{*nearest, there.body, there.other});
    window.frames(2);
    ASSERT_TRUE(window.session().measured);
    EXPECT_NEAR(window.session().measured->gap, there.gapMm, 0.5);  // of 25 instants of the move
    const double gap = window.session().measured->gap;
    window.press(Key::End, false, false, true);
    window.frames(2);
    ASSERT_TRUE(window.session().measured);
    EXPECT_NE(window.session().measured->gap, gap) << "at the moment shown";
}

// Where a hand without a mouse would be at its end.
TEST_F(Window, TakesAPlaceTypedInALesson) {
    Startup asked;
    asked.lesson = fs::path(FIRSTOFF_SOURCE_DIR) / "assets/lessons/01-reading-a-block";
    asked.lessonStep = 4;
    asked.picture = "unused.png";
    WindowBench window(asked);
    ASSERT_EQ(window.app().lessons().current()->kind, LessonStep::Kind::Predict);
    const auto work = [&] { return window.app().lessons().workAt(4); };
    const auto until = [&](const auto& there) {
        for (int i = 0; i < 2000 && !there(); ++i) window.frames();
        ASSERT_TRUE(there());
    };
    window.app().carryOut(TellAnswer{});
    until([&] { return work() != nullptr && work()->modelAnswer; });
    const PlaceAnswer right = std::get<PlaceAnswer>(*work()->modelAnswer);
    for (const bool rightly : {false, true}) {
        window.app().carryOut(PlaceTyped{right.xMm, right.zMm + (rightly ? 0 : 30)});
        window.app().carryOut(MarkStep{});
        window.frames(2);
        until([&] { return !window.app().lessons().marking() && work()->marking; });
        EXPECT_EQ(work()->marking->mark == Mark::Right, rightly);
        ASSERT_TRUE(window.session().clickedPlace);
    }
}

TEST_F(Window, WalksEveryPageByKeys) {
    WindowBench window(folder / "job.nc");
    for (const char* tab :
         {"Findings", "Words", "Lessons", "Sizes", "Clearances", "Cut", "Time", "Bodies", "What", "Mistakes"}) {
        window.openPage(tab);
        window.moveTo(400, 300);
        window.press(Key::F6);
        window.frames(2);
        const ImGuiWindow* walked = GImGui->NavWindow;
        ASSERT_NE(walked, nullptr) << tab;
        // What scrolls, not the pane around it: from the pane no key leads into it.
        EXPECT_NE(walked->Flags & ImGuiWindowFlags_ChildWindow, 0) << tab << ": " << walked->Name;
        window.press(Key::F6);
    }
}

// Whatever is in the file, it is shown and edited like any other.
TEST_F(Window, SurvivesFilesThatAreNoPrograms) {
    const std::pair<const char*, std::string> rows[] = {
        {"empty", ""},
        {"binary junk", std::string("\x7f\x45LF\0\0\xff\xfe\x80\x80\x80G01\0X", 16)},
        {"one endless line", std::string(200'000, 'X')},
        {"only line ends", std::string(5'000, '\n')},
        {"carriage returns", "G01\rX1\r\r\n"},
        {"byte order mark and tabs", "\xEF\xBB\xBF\tG21\r\n\t\tM30\r\n"},
    };
    for (const auto& [what, text] : rows) {
        SCOPED_TRACE(what);
        std::ofstream(folder / "junk.nc", std::ios::binary) << text;
        WindowBench window(folder / "junk.nc");
        const ImVec2 at = WindowBench::line(1);
        window.click(at.x, at.y);
        for (const Key key : {Key::End, Key::Down, Key::PageDown, Key::Up, Key::Home}) window.press(key, false, true);
        window.press(Key::Home, true);
        window.type("M");
        window.frames(15);
        window.settle();
        EXPECT_EQ(window.session().document.text(), "M" + text);
        for (const Key key : {Key::Space, Key::Right, Key::Left, Key::End, Key::Home})
            window.press(key, false, false, true);
    }
}

struct Size {
    int width, height;
};

TEST_F(Window, IsDrawnInEverySize) {
    WindowBench window(folder / "job.nc");
    for (const auto& [width, height] :
         {Size{320, 240}, {640, 400}, {1280, 800}, {1920, 1080}, {3840, 2160}, {200, 100}}) {
        window.resize(width, height);
        window.frames(2);
        const Image image = window.picture();
        EXPECT_EQ(image.width, width);
        // Something is drawn: more than one colour.
        const auto differs = [&](std::uint8_t value) { return value != image.rgb.front(); };
        EXPECT_TRUE(std::any_of(image.rgb.begin(), image.rgb.end(), differs)) << width << " x " << height;
    }
}

}  // namespace
}  // namespace firstoff::gui
