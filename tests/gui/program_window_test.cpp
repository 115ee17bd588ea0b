// Work on the text of a program in the whole window, without a display.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>

#include "gui/file_io.h"
#include "gui/pass_words.h"
#include "tests/gui/job_folder.h"
#include "tests/gui/window_bench.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::StartsWith;
using What = EditProgram::What;

constexpr const char* kProgram =
    "O0001 (TURN A STEP)\nG21 G40 G99\nG50 S2800\nT0101\nG96 S200 M03\nG00 X54. Z2. M08\nG71 U2. R1.\n"
    "G71 P10 Q20 U.4 W.1 F.3\nN10 G00 X30.\nG01 Z-20.\nN20 X54.\nG70 P10 Q20 F.12\nG28 U0 W0\nM30\n";
constexpr std::size_t kRoughing = 7;  // line from 0

class ProgramWindow : public JobFolder {
protected:
    ProgramWindow() : JobFolder(kProgram) {}
    void write(const char* name, const std::string& text) const { folder.put(name, text); }
    static const std::string& text(WindowBench& window) { return window.session().document.text(); }
    template <class One>
    static void carryOut(WindowBench& window, One command) {
        window.app().carryOut(std::move(command));
        window.frames(3);
    }
    static void edit(WindowBench& window, What what) { carryOut(window, EditProgram{what}); }
    // Until the trial of the text that was just changed is shown.
    static void retry(WindowBench& window) {
        window.frames(15);  // longer than the rest before a trial starts
        window.settle();
    }
};

// ---- find and replace ----

TEST_F(ProgramWindow, FindsAsOneTypes) {
    WindowBench window(folder / "job.nc");
    window.pressCtrl('F');
    window.frames(2);
    window.typeIntoField("Z-20.");
    const ProgramPane& pane = window.app().programPane();
    EXPECT_EQ(pane.matches().places().size(), 1u);
    EXPECT_EQ(pane.caretLine(), 9u);
    EXPECT_TRUE(pane.findBar().hasKeys());
    EXPECT_EQ(text(window), kProgram);  // nothing of it went into the program
    window.press(Key::Escape);
    EXPECT_EQ(pane.findBar().mode(), FindBar::Mode::Closed);
    EXPECT_TRUE(pane.hasFocus());
}

TEST_F(ProgramWindow, GoesFromMatchToMatchAndRound) {
    WindowBench window(folder / "job.nc");
    window.pressCtrl('F');
    window.frames(2);
    window.typeIntoField("Q20");
    const ProgramPane& pane = window.app().programPane();
    std::vector<std::size_t> lines{pane.caretLine()};
    for (int i = 0; i < 2; ++i) {
        window.press(Key::F3);
        window.frames(1);
        lines.push_back(pane.caretLine());
    }
    window.press(Key::F3, false, true);
    window.frames(1);
    lines.push_back(pane.caretLine());
    window.press(Key::Enter);
    window.frames(1);
    lines.push_back(pane.caretLine());
    EXPECT_EQ(lines, (std::vector<std::size_t>{7, 11, 7, 11, 7}));
}

TEST_F(ProgramWindow, ReplacesAllInOneUndoStep) {
    WindowBench window(folder / "job.nc");
    window.pressCtrl('H');
    window.frames(2);
    window.typeIntoField("20");
    ImGui::GetIO().MousePos = {0, 0};
    // By the button of the strip: its place follows from the pane's.
    const ProgramPane& pane = window.app().programPane();
    EXPECT_EQ(pane.findBar().mode(), FindBar::Mode::Replace);
    EXPECT_EQ(pane.matches().places().size(), 5u);
    window.click(1256, 120);  // All, right in the third row of the strip
    window.frames(2);
    EXPECT_THAT(text(window), HasSubstr("G71 P10 Q U.4"));
    EXPECT_THAT(text(window), HasSubstr("G96 S0 M03"));
    edit(window, What::Undo);
    EXPECT_EQ(text(window), kProgram);
}

TEST_F(ProgramWindow, GoesToABlockOrALine) {
    WindowBench window(folder / "job.nc");
    const ProgramPane& pane = window.app().programPane();
    const auto goTo = [&](const char* wish) {
        window.pressCtrl('G');
        window.frames(2);
        window.typeIntoField(wish);
        window.press(Key::Enter);
        window.frames(2);
    };
    goTo("N20");
    EXPECT_EQ(pane.caretLine(), 10u);
    EXPECT_EQ(pane.findBar().mode(), FindBar::Mode::Closed);
    goTo("3");
    EXPECT_EQ(pane.caretLine(), 2u);
    goTo("N99");
    EXPECT_EQ(pane.caretLine(), 2u);
    EXPECT_EQ(pane.findBar().mode(), FindBar::Mode::GoTo);  // it says that there is none
    EXPECT_EQ(text(window), kProgram);                      // no Enter went into the program
}

// Fast fingers and a slow frame: all of it comes at once.
TEST_F(ProgramWindow, KeepsCharactersBehindCtrlFOutOfTheProgram) {
    for (const bool focused : {true, false}) {
        SCOPED_TRACE(focused);
        WindowBench window(folder / "job.nc");
        const ImVec2 at = WindowBench::line(1);
        if (focused) window.click(at.x, at.y);
        InputEvent key;
        key.key = Key::Character;
        key.symbol = 'F';
        key.ctrl = true;
        window.app().input(key);
        window.type("Z-2");
        window.frames(3);
        window.typeIntoField("0");
        window.frames(2);
        EXPECT_EQ(text(window), kProgram);
        EXPECT_EQ(window.app().programPane().findBar().search().query().what, "Z-20");
        EXPECT_EQ(window.app().programPane().caretLine(), 9u);
    }
}

// ---- numbers and spacing ----

TEST_F(ProgramWindow, NumbersAnewInOneUndoStep) {
    WindowBench window(folder / "job.nc");
    const auto moves = window.trial().toolpath.moves.size();
    carryOut(window, Renumber{100, 10, true});
    EXPECT_THAT(text(window), HasSubstr("N160 G71 P170 Q190 U.4 W.1 F.3\nN170 G00 X30.\n"));
    retry(window);
    EXPECT_EQ(window.trial().toolpath.moves.size(), moves);
    edit(window, What::Undo);
    EXPECT_EQ(text(window), kProgram);
}

TEST_F(ProgramWindow, SaysWhyItDoesNotNumberAnew) {
    write("job.nc", std::string(kProgram) + "#1=10\nGOTO #1\n");
    WindowBench window(folder / "job.nc");
    carryOut(window, AskToRenumber{});
    carryOut(window, Renumber{});
    EXPECT_FALSE(window.session().modified());
    ASSERT_EQ(window.app().renumberDialog().refusals().size(), 1u);
    EXPECT_THAT(window.app().renumberDialog().refusals().front(), HasSubstr("Line 16"));
    EXPECT_TRUE(window.app().renumberDialog().isOpen());
    window.press(Key::Escape);
    EXPECT_FALSE(window.app().renumberDialog().isOpen());
}

TEST_F(ProgramWindow, SpacesWords) {
    WindowBench window(folder / "job.nc");
    carryOut(window, SpaceWords{false});
    EXPECT_THAT(text(window), StartsWith("O0001 (TURN A STEP)\nG21G40G99\nG50S2800\n"));
    edit(window, What::Undo);
    EXPECT_EQ(text(window), kProgram);
}

// ---- passes ----

TEST_F(ProgramWindow, UnfoldsThePassesOfACycle) {
    WindowBench window(folder / "job.nc");
    const ProgramNotes& notes = window.app().programPane().notes();
    ASSERT_TRUE(notes.isCycle(kRoughing));
    EXPECT_FALSE(notes.isCycle(0));
    const std::size_t rows = notes.rows().count();
    const ImVec2 at = WindowBench::line(kRoughing + 1);
    // The triangle stands at the end of the margin: found as the user finds it, left of the text.
    const ImVec2 row = window.app().programPane().placeOf(kRoughing);
    ASSERT_GT(row.y, 0);
    EXPECT_NEAR(row.y, at.y, 9);  // half a row
    window.click(at.x, at.y);
    window.press(Key::Enter, true);
    window.frames(1);
    ASSERT_TRUE(notes.isUnfolded(kRoughing));
    const auto passes = window.session().index()->passes().of(static_cast<BlockId>(kRoughing));
    ASSERT_GE(passes.size(), 6u);  // 54 down to 30.4 in passes of 4 on the diameter, and the last one along the profile
    EXPECT_EQ(notes.rows().count(), rows + passes.size());
    EXPECT_EQ(text(window), kProgram);

    // A click on a pass goes to it.
    const ImVec2 third = window.app().programPane().placeOf(kRoughing, 3);
    ASSERT_GT(third.y, 0);
    window.click(third);
    EXPECT_NEAR(window.session().timeS, startOfMove(window.trial(), passes[2].first), 1e-5);
    EXPECT_EQ(text(window), kProgram);

    // Typing above takes the rows along.
    const ImVec2 first = WindowBench::line(1);
    window.click(first.x, first.y);
    window.press(Key::Home);
    window.press(Key::Enter);
    EXPECT_TRUE(notes.isUnfolded(kRoughing + 1));
    retry(window);
    EXPECT_TRUE(notes.isUnfolded(kRoughing + 1));
    EXPECT_FALSE(notes.isUnfolded(kRoughing));
}

TEST_F(ProgramWindow, TellsEachPass) {
    WindowBench window(folder / "job.nc");
    const auto passes = window.session().index()->passes().of(static_cast<BlockId>(kRoughing));
    double sum = 0;
    for (const CyclePass& pass : passes) sum += tellPass(window.trial(), pass).seconds;
    const PassTold first = tellPass(window.trial(), passes[0]);
    EXPECT_EQ(first.kind, "cut");
    EXPECT_THAT(first.way, StartsWith("X50 Z2 → X50 Z-19.9"));  // 54 less the depth of cut on either side, to the
                                                                // allowance; coming off is left out
    EXPECT_EQ(first.feed, "F0.3");
    const double from = startOfMove(window.trial(), passes.front().first);
    const double to = startOfMove(window.trial(), passes.back().end);
    EXPECT_NEAR(sum, to - from, 1e-9);  // no time between passes is lost; rounding of doubles
}

// ---- findings in the text ----

TEST_F(ProgramWindow, TellsAFindingBeneathItsLineAndMendsIt) {
    std::string faulty = kProgram;
    faulty.replace(faulty.find("G01 Z-20."), 9, "GO1 Z-20.");
    write("job.nc", faulty);
    WindowBench window(folder / "job.nc");
    const ProgramPane& pane = window.app().programPane();
    const ProgramRows& rows = pane.notes().rows();
    ASSERT_EQ(rows.below(9), 2u);  // what is wrong, and what mends it
    const auto note = pane.notes().row(9, 1);
    ASSERT_NE(note.note, nullptr);
    EXPECT_FALSE(note.mends);
    EXPECT_EQ(window.trial().findings[*note.note->worst].code, "letter-without-number");
    ASSERT_TRUE(pane.notes().row(9, 2).mends);
    const ImVec2 inPane = WindowBench::line(3);
    window.moveTo(inPane.x, inPane.y);
    window.wheel(-2);  // into sight
    const ImVec2 fix = pane.placeOf(9, 2);
    ASSERT_GT(fix.y, 0);
    window.click(fix);
    window.frames(2);
    EXPECT_EQ(text(window), kProgram);
    retry(window);
    EXPECT_EQ(rows.below(9), 0u);
    edit(window, What::Undo);
    EXPECT_EQ(text(window), faulty);
}

TEST_F(ProgramWindow, KeepsFindingsOutOfTheTextWhenTold) {
    std::string faulty = kProgram;
    faulty.replace(faulty.find("G01 Z-20."), 9, "GO1 Z-20.");
    write("job.nc", faulty);
    WindowBench window(folder / "job.nc");
    ViewSettings view = window.session().view;
    view.findingsInText = false;
    carryOut(window, ChangeView{view});
    EXPECT_EQ(window.app().programPane().notes().rows().below(9), 0u);
}

// ---- beside another text ----

TEST_F(ProgramWindow, ComparesAndTakesOver) {
    WindowBench window(folder / "job.nc");
    const ImVec2 at = WindowBench::line(3);
    window.click(at.x, at.y);
    window.press(Key::End);
    window.type("0");
    carryOut(window, CompareWith{});
    const ComparePane& pane = window.app().comparePane();
    for (int i = 0; i < 200 && !pane.compared().known(); ++i) window.frames(1);
    ASSERT_EQ(pane.compared().differences().size(), 1u);
    carryOut(window, ChangeText{pane.compared().taken(0, pane.other(), window.session().document, Side::Left),
                                window.session().document.revision()});
    EXPECT_EQ(text(window), kProgram);
    for (int i = 0; i < 200 && !pane.compared().known(); ++i) window.frames(1);
    EXPECT_TRUE(pane.compared().differences().empty());
    edit(window, What::Undo);
    EXPECT_THAT(text(window), HasSubstr("G50 S28000\n"));
    window.press(Key::Escape);
    EXPECT_FALSE(pane.isOpen());
}

// ---- files ----

TEST_F(ProgramWindow, KeepsTheVersionOfBefore) {
    WindowBench window(folder / "job.nc");
    for (int i = 0; i < 2; ++i) {
        const ImVec2 at = WindowBench::line(1);
        window.click(at.x, at.y);
        window.press(Key::Home);
        window.type("(NEW)");
        window.pressCtrl('S');
    }
    EXPECT_EQ(readWholeFile(folder / "job.nc"), std::string("(NEW)(NEW)") + kProgram);
    EXPECT_EQ(readWholeFile(folder / "job.nc.bak"), kProgram);
}

TEST_F(ProgramWindow, NeverSavesOverWhatAnotherProgramWrote) {
    WindowBench window(folder / "job.nc", 1280, 800, folder / "state");
    const ImVec2 at = WindowBench::line(1);
    window.click(at.x, at.y);
    window.press(Key::Home);
    window.type("(MINE)");
    write("job.nc", "(THEIRS)\nM30\n");
    window.pressCtrl('S');
    EXPECT_EQ(readWholeFile(folder / "job.nc"), "(THEIRS)\nM30\n");
    EXPECT_TRUE(window.app().fileNotices().asksAboutDisk());
    EXPECT_THAT(window.session().message, HasSubstr("not saved"));
    carryOut(window, FileAnswer{FileAnswer::What::KeepMine});
    EXPECT_FALSE(window.app().fileNotices().asksAboutDisk());
    window.pressCtrl('S');
    EXPECT_EQ(readWholeFile(folder / "job.nc"), std::string("(MINE)") + kProgram);
    EXPECT_EQ(readWholeFile(folder / "job.nc.bak"), "(THEIRS)\nM30\n");
}

TEST_F(ProgramWindow, ReadsAgainAsAnEditThatCanBeUndone) {
    WindowBench window(folder / "job.nc", 1280, 800, folder / "state");
    write("job.nc", "(THEIRS)\nM30\n");
    window.frames(150);  // looks every two seconds; 60 frames are one
    ASSERT_TRUE(window.app().fileNotices().asksAboutDisk());
    carryOut(window, FileAnswer{FileAnswer::What::ReadAgain});
    EXPECT_EQ(text(window), "(THEIRS)\nM30\n");
    EXPECT_FALSE(window.session().modified());
    EXPECT_FALSE(window.app().fileNotices().asksAboutDisk());
    edit(window, What::Undo);
    EXPECT_EQ(text(window), kProgram);
    EXPECT_TRUE(window.session().modified());
}

TEST_F(ProgramWindow, OffersWhatACrashLeft) {
    const fs::path state = folder / "state";
    fs::last_write_time(folder / "job.nc", fs::file_time_type::clock::now() - std::chrono::minutes(1));
    {
        WindowBench window(folder / "job.nc", 1280, 800, state);
        const ImVec2 at = WindowBench::line(1);
        window.click(at.x, at.y);
        window.press(Key::Home);
        window.type("(LOST)");
        window.frames(300);  // five seconds
    }                        // ends without being closed
    ASSERT_TRUE(fs::exists(state));
    ASSERT_FALSE(fs::is_empty(state));
    {
        WindowBench window(folder / "job.nc", 1280, 800, state);
        ASSERT_TRUE(window.app().fileNotices().asksAboutUnsaved());
        EXPECT_EQ(text(window), kProgram);
        carryOut(window, FileAnswer{FileAnswer::What::TakeUnsaved});
        EXPECT_EQ(text(window), std::string("(LOST)") + kProgram);
        window.pressCtrl('S');
        EXPECT_TRUE(fs::is_empty(state));
        window.app().askToClose();
        window.frames(2);
        EXPECT_TRUE(window.app().closed());
    }
    WindowBench window(folder / "job.nc", 1280, 800, state);
    EXPECT_FALSE(window.app().fileNotices().asksAboutUnsaved());
}

}  // namespace
}  // namespace firstoff::gui
