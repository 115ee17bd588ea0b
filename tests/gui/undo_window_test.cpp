// Taking back and doing again in the whole window, as a user does it: what was changed besides text.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "tests/gui/job_folder.h"
#include "tests/gui/window_bench.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::IsEmpty;

class UndoInTheWindow : public JobFolder {
protected:
    template <class One>
    static void carryOut(WindowBench& window, One one) {
        window.app().carryOut(std::move(one));
        window.frames(1);
    }
};

TEST_F(UndoInTheWindow, ADraggedSliderIsOneStep) {
    WindowBench window(folder / "job.nc");
    window.openPage("What if");
    const Rect page = window.app().pagePlace();
    const float left = page.x + 10 + 112;  // where sliders begin
    const auto wears = [&] { return window.session().whatIf.wears; };
    // The first slider stands somewhere beneath the choice of the tool; its middle is nothing.
    for (float y = page.y + 20; y < page.y + 120 && wears().empty(); y += 6) window.drag(left + 50, y, left + 100, y);
    ASSERT_FALSE(wears().empty());
    const WhatIf dragged = window.session().whatIf;
    EXPECT_EQ(window.session().changes.undoWords(), "wear of offset 1");
    window.settle();
    ASSERT_TRUE(window.session().showsChanges());
    window.pressCtrl('Z');
    EXPECT_THAT(wears(), IsEmpty());
    EXPECT_FALSE(window.session().changes.canUndo());
    EXPECT_FALSE(window.session().showsChanges());
    EXPECT_EQ(window.session().changes.redoWords(), "wear of offset 1");
    window.pressCtrl('Y');
    EXPECT_EQ(window.session().whatIf, dragged);
    window.settle();
    EXPECT_TRUE(window.session().showsChanges());
    window.pressCtrl('Z');
    window.pressCtrl('Z', true);  // with Shift: again
    EXPECT_EQ(window.session().whatIf, dragged);
}

TEST_F(UndoInTheWindow, EverythingGoesBackInOrderAndForwardAgain) {
    WindowBench window(folder / "job.nc");
    const Session& now = window.session();
    const Choices start = now.choices();
    carryOut(window, Bookmark{4});
    carryOut(window, SingleBlock{true});
    carryOut(window, LoopSpan{1, 3});
    carryOut(window, MeasureBody{0, 2});
    WhatIf half;
    half.feed = 0.5;
    carryOut(window, TryChanges{half});
    carryOut(window, TryMistake{possibleMistakes(window.trial()).front()});
    ViewSettings view = now.view;
    view.cutaway = 1;
    carryOut(window, ChangeView{view});
    view.hiddenBodies = 6;
    carryOut(window, ChangeView{view});
    const Choices end = now.choices();
    std::vector<std::string> told;
    while (now.changes.canUndo()) {
        told.push_back(now.changes.undoWords());
        window.pressCtrl('Z');
    }
    EXPECT_THAT(told, ElementsAre("bodies shown or hidden", "billet whole or cut away",
                                  testing::StartsWith("mistake: "), "feed override", "bodies chosen for measuring",
                                  "stretch that is looped", "single block", "bookmark at line 5"));
    EXPECT_EQ(changeInWords(start, now.choices()), "");
    window.settle();
    EXPECT_FALSE(now.showsChanges());
    while (now.changes.canRedo()) window.pressCtrl('Y');
    EXPECT_EQ(changeInWords(end, now.choices()), "");
    window.settle();
    ASSERT_TRUE(now.outcome->comparison);
    EXPECT_EQ(now.outcome->mistake, end.mistake);
    EXPECT_EQ(now.outcome->whatIf, half);
}

TEST_F(UndoInTheWindow, KeysStayWithTheTextWhileTheCaretIsInIt) {
    WindowBench window(folder / "job.nc");
    carryOut(window, Bookmark{4});
    const ImVec2 at = WindowBench::line(1);
    window.click(at.x, at.y);
    window.press(Key::Home);
    window.type("X");
    window.pressCtrl('Z');
    EXPECT_EQ(window.session().document.text(), kFaceAndTurn);
    window.pressCtrl('Z');  // nothing is left of the text to take back, and nothing else is
    EXPECT_THAT(window.session().bookmarks, ElementsAre(4));
    window.pressCtrl('Y');
    EXPECT_EQ(window.session().document.text(), std::string("X") + kFaceAndTurn);
    window.press(Key::Escape);
    window.pressCtrl('Z');
    EXPECT_THAT(window.session().bookmarks, IsEmpty());
    EXPECT_EQ(window.session().document.text(), std::string("X") + kFaceAndTurn);
}

TEST_F(UndoInTheWindow, BookmarksGoWithTheirLines) {
    WindowBench window(folder / "job.nc");
    carryOut(window, Bookmark{4});
    carryOut(window, Bookmark{6});
    carryOut(window, Bookmark{6});  // no longer
    const double there = window.trial().startOfBlock(4);
    const ImVec2 at = WindowBench::line(2);
    window.click(at.x, at.y);
    window.press(Key::Home);
    window.press(Key::Enter);
    EXPECT_THAT(window.session().bookmarks, ElementsAre(5));
    // In a trial of the text before as well as in the one of the new text.
    for (int i = 0; i < 2; ++i) {
        window.press(Key::Home, false, false, true);
        window.press(Key::Down, false, false, true);
        EXPECT_NEAR(window.session().timeS, there, 1e-9);
        window.frames(15);
        window.settle();
    }
    window.press(Key::Escape);
    window.pressCtrl('Z');
    EXPECT_THAT(window.session().bookmarks, ElementsAre(5, 7));
    window.pressCtrl('Z');
    EXPECT_THAT(window.session().bookmarks, ElementsAre(5));
}

// What was changed by keys on a page is taken back there.
TEST_F(UndoInTheWindow, WorksWhileThePageHasTheKeys) {
    WindowBench window(folder / "job.nc");
    carryOut(window, Bookmark{4});
    window.press(Key::F6);
    window.pressCtrl('Z');
    EXPECT_THAT(window.session().bookmarks, IsEmpty());
    const double before = window.session().timeS;
    window.press(Key::Right);  // the page's, not the time's
    EXPECT_EQ(window.session().timeS, before);
    window.press(Key::F6);
    window.press(Key::Right);
    EXPECT_GT(window.session().timeS, before);
}

// As the window does with the changes themselves when the text is another.
TEST_F(UndoInTheWindow, AnEditKeepsThePanelAndForgetsOffsets) {
    WindowBench window(folder / "job.nc");
    WhatIf changes;
    changes.optionalStop = true;
    carryOut(window, TryChanges{changes});
    changes.wears = {{1, 0.1, 0}};
    carryOut(window, TryChanges{changes});
    EXPECT_EQ(window.session().changes.undoWords(), "wear of offset 1");
    const ImVec2 at = WindowBench::line(1);
    window.click(at.x, at.y);
    window.press(Key::End);
    window.type(" ");
    window.frames(15);  // longer than the rest before a trial starts: 0.15 s
    window.settle();
    window.press(Key::Escape);
    EXPECT_EQ(window.session().changes.undoWords(), "optional stop");
    window.pressCtrl('Z');
    EXPECT_TRUE(window.session().whatIf.empty());
    EXPECT_FALSE(window.session().changes.canUndo());
}

TEST_F(UndoInTheWindow, AnotherProgramForgetsWhatWasAboutTheFirst) {
    std::ofstream(folder / "other.nc") << "G21\nM30\n";
    WindowBench window(folder / "job.nc");
    ViewSettings view = window.session().view;
    view.colouring = Colouring::Tool;
    carryOut(window, ChangeView{view});
    carryOut(window, Bookmark{4});
    carryOut(window, LoopSpan{1, 3});
    window.app().dropFiles({folder / "other.nc"});
    window.frames(1);
    window.settle();
    EXPECT_EQ(window.session().changes.undoWords(), "colouring of surfaces");
    window.pressCtrl('Z');
    EXPECT_EQ(window.session().view.colouring, Colouring::Metal);
    EXPECT_THAT(window.session().bookmarks, IsEmpty());
    EXPECT_FALSE(window.session().loop);
}

TEST_F(UndoInTheWindow, SplittersAndPagesAreNoSteps) {
    WindowBench window(folder / "job.nc");
    ViewSettings view = window.session().view;
    view.programWidth += 40;
    carryOut(window, ChangeView{view});
    window.openPage("Time");
    carryOut(window, Seek{2});
    EXPECT_FALSE(window.session().changes.canUndo());
    EXPECT_EQ(window.session().view.programWidth, view.programWidth);
}

}  // namespace
}  // namespace firstoff::gui
