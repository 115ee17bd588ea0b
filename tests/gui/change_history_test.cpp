// What can be taken back besides text: one step for each thing, in words, and only that thing put back.
#include "gui/change_history.h"

#include <gtest/gtest.h>

#include <functional>
#include <set>
#include <sstream>
#include <string>

namespace firstoff::gui {
namespace {

using Part = ChangeHistory::Part;

TEST(ChangeHistory, SaysWhatWasChanged) {
    struct Row {
        const char* words;
        std::function<void(Choices&)> change;
    };
    const Row rows[] = {
        {"", [](Choices&) {}},
        {"wear of offset 2",
         [](Choices& c) {
             c.whatIf.wears = {{2, 0.05, 0}};
         }},
        {"",
         [](Choices& c) {
             c.whatIf.wears = {{2, 0, 0}};
         }},  // nothing added is nothing changed
        {"",
         [](Choices& c) {
             c.whatIf.edges = {{2, -1, 0}};
         }},  // likewise
        {"nose radius at station 3",
         [](Choices& c) {
             c.whatIf.edges = {{3, 0.8, 0}};
         }},
        {"centre height at station 3",
         [](Choices& c) {
             c.whatIf.edges = {{3, -1, 0.1}};
         }},
        {"datum Z", [](Choices& c) { c.whatIf.datumZMm = 0.5; }},
        {"feed override", [](Choices& c) { c.whatIf.feed = 0.5; }},
        {"", [](Choices& c) { c.whatIf.feed = 0.57 * 100 / 100 + 0.43; }},  // rounding of per cent
        {"rapid override", [](Choices& c) { c.whatIf.rapid = 0.25; }},
        {"spindle override", [](Choices& c) { c.whatIf.spindle = 1.1; }},
        {"optional stop", [](Choices& c) { c.whatIf.optionalStop = true; }},
        {"block skip", [](Choices& c) { c.whatIf.blockSkipLevels = std::uint16_t{2}; }},
        {"dry run", [](Choices& c) { c.whatIf.dryRunMmPerMin = 2000; }},
        {"changes at the machine",
         [](Choices& c) {
             c.whatIf.feed = 0.5;
             c.whatIf.wears = {{2, 0.05, 0}};
         }},
        {"mistake: Z-15. keyed as Z15.",
         [](Choices& c) {
             c.mistake = Mistake{};
             c.mistake->told = "Z-15. keyed as Z15.";
         }},
        {"bodies chosen for measuring",
         [](Choices& c) {
             c.measure = {0, 4};
         }},
        {"bookmark at line 8", [](Choices& c) { c.bookmarks = {7}; }},
        {"bookmarks",
         [](Choices& c) {
             c.bookmarks = {7, 9};
         }},
        {"stretch that is looped",
         [](Choices& c) {
             c.loop = TimeSpan{1, 2};
         }},
        {"billet whole or cut away", [](Choices& c) { c.view.cutaway = 1; }},
        {"colouring of surfaces", [](Choices& c) { c.view.colouring = Colouring::Size; }},
        {"bodies shown or hidden", [](Choices& c) { c.view.hiddenBodies = 3; }},
        {"chips in the picture", [](Choices& c) { c.view.chips = true; }},
        {"single block", [](Choices& c) { c.singleBlock = true; }},
        {"units", [](Choices& c) { c.view.units = Units::Inches; }},
        {"folded lanes", [](Choices& c) { c.view.foldedLanes = {"Grip"}; }},
        // How the window is arranged is not taken back.
        {"",
         [](Choices& c) {
             c.view.programWidth = 500;
             c.view.section.share = 0.3f;
             c.view.windowWidth = 900;
             c.view.recent = {"/a.nc"};
             c.view.below = Tab::Time;
             c.view.language = "de";
         }},
    };
    for (const Row& row : rows) {
        const Choices before;
        Choices after = before;
        row.change(after);
        EXPECT_EQ(changeInWords(before, after), row.words);
        EXPECT_EQ(changeInWords(after, before), row.words);
    }
}

// Whatever is kept of the view can be taken back, or is one of how the window is arranged: no setting is forgotten.
TEST(ChangeHistory, KnowsEverySettingThatIsKept) {
    const std::set<std::string> arrangement{
        "readouts_width", "program_width",      "findings_height", "timeline_height", "window_width", "window_height",
        "page",           "page_in_low_window", "recent",          "share",           "language"};
    const char* values[] = {"true",      "false",         "1",          "0.4",      "0.5",    "1.5",      "250.0",
                            "900",       "'by tool'",     "'plain'",    "'inch'",   "'time'", "'alone'",  "'left out'",
                            "['/a.nc']", "['workpiece']", "['billet']", "['Grip']", "'both'", "'beside'", "'de'"};
    const ViewSettings usual;
    Choices before;
    before.view = readViewSettings(writeViewSettings(usual));
    std::istringstream text(writeViewSettings(usual));
    int known = 0;
    for (std::string line; std::getline(text, line);) {
        const std::size_t equals = line.find(" = ");
        if (equals == std::string::npos || line.front() == '#') continue;
        const std::string key = line.substr(line.find_first_not_of(' '), equals - line.find_first_not_of(' '));
        bool changes = false, told = false;
        for (const char* value : values) {
            std::string whole = writeViewSettings(usual);
            Choices after;
            after.view =
                readViewSettings(whole.replace(whole.find(line), line.size(), line.substr(0, equals) + " = " + value));
            changes = changes || after.view != before.view;
            told = told || !changeInWords(before, after).empty();
        }
        EXPECT_TRUE(changes) << key << ": no value of the list above is another one";
        EXPECT_NE(told, arrangement.contains(key)) << key;
        ++known;
    }
    EXPECT_GT(known, 25);
}

Choices withWear(Choices from, int offset, double xMm) {
    std::erase_if(from.whatIf.wears, [&](const WhatIf::Wear& wear) { return wear.offset == offset; });
    from.whatIf.wears.push_back({offset, xMm, 0});
    return from;
}

TEST(ChangeHistory, MakesOneStepOfOneDrag) {
    ChangeHistory history;
    const Choices start;
    Choices now = start;
    for (int i = 1; i <= 100; ++i) {
        const Choices next = withWear(now, 2, 0.001 * i);
        history.note(now, next, 1);
        now = next;
    }
    const Choices dragged = now;
    history.note(now, withWear(now, 2, 0.2), 2);  // taken up anew
    EXPECT_EQ(history.undoWords(), "wear of offset 2");
    auto step = history.undo();
    ASSERT_TRUE(step);
    EXPECT_EQ(step->to.whatIf, dragged.whatIf);
    EXPECT_EQ(history.redoWords(), "wear of offset 2");
    step = history.undo();
    ASSERT_TRUE(step);
    EXPECT_EQ(step->from.whatIf, dragged.whatIf);
    EXPECT_EQ(step->to.whatIf, start.whatIf);
    EXPECT_FALSE(history.canUndo());
    EXPECT_FALSE(history.undo());
    step = history.redo();
    ASSERT_TRUE(step);
    EXPECT_EQ(step->to.whatIf, dragged.whatIf);
}

TEST(ChangeHistory, KeepsApartWhatOneGestureChanges) {
    ChangeHistory history;
    const Choices start, worn = withWear(start, 2, 0.1), both = withWear(worn, 3, 0.1);
    history.note(start, worn, 1);
    history.note(worn, both, 1);
    EXPECT_EQ(history.undoWords(), "wear of offset 3");
    history.undo();
    EXPECT_EQ(history.undoWords(), "wear of offset 2");
}

TEST(ChangeHistory, HasNoStepForADragBackToItsStart) {
    ChangeHistory history;
    const Choices start, worn = withWear(start, 2, 0.1);
    history.note(start, worn, 1);
    history.note(worn, withWear(worn, 2, 0), 1);
    EXPECT_FALSE(history.canUndo());
    // Nor does it join an older step when it goes on from there, or take away what could be done again.
    const Choices less = withWear(start, 2, 0.05), more = withWear(start, 2, 0.2);
    history.note(start, worn, 2);
    history.note(worn, more, 3);
    history.undo();
    history.note(worn, more, 4);
    history.note(more, worn, 4);
    EXPECT_TRUE(history.canRedo());
    history.note(worn, less, 4);
    EXPECT_FALSE(history.canRedo());
    EXPECT_EQ(history.undo()->to.whatIf, worn.whatIf);
    EXPECT_EQ(history.undo()->to.whatIf, start.whatIf);
}

TEST(ChangeHistory, GivesUpWhatWasTakenBackOnceSomethingElseIsDone) {
    ChangeHistory history;
    const Choices start, worn = withWear(start, 2, 0.1), other = withWear(start, 3, 0.1);
    history.note(start, worn, 1);
    history.undo();
    history.note(start, start, 2);  // nothing was done
    EXPECT_TRUE(history.canRedo());
    history.note(start, other, 3);
    EXPECT_FALSE(history.canRedo());
    EXPECT_EQ(history.undoWords(), "wear of offset 3");
}

// The gesture may go on after its change was taken back by a key.
TEST(ChangeHistory, JoinsNothingToAStepOfBefore) {
    ChangeHistory history;
    const Choices start, first = withWear(start, 2, 0.1), second = withWear(start, 2, 0.2);
    history.note(start, first, 1);
    history.note(first, second, 2);
    history.undo();
    history.note(first, withWear(first, 2, 0.3), 2);
    history.undo();
    EXPECT_EQ(history.undoWords(), "wear of offset 2");
    EXPECT_EQ(history.undo()->from.whatIf, first.whatIf);
}

TEST(ChangeHistory, PutsBackOnlyWhatDiffers) {
    ViewSettings from, to;
    to.cutaway = 2;
    ViewSettings now;
    now.colouring = Colouring::Tool;
    now.programWidth = 500;
    ViewSettings expected = now;
    expected.cutaway = 2;
    EXPECT_EQ(withChange(now, from, to), expected);
    to.programWidth = 700;  // no part of any step
    EXPECT_EQ(withChange(now, from, to), expected);
}

TEST(ChangeHistory, ForgetsWhatNoLongerFitsTheJob) {
    ChangeHistory history;
    std::vector<Choices> stages(1);
    const auto go = [&](const std::function<void(Choices&)>& change) {
        Choices next = stages.back();
        change(next);
        history.note(stages.back(), next, stages.size());
        stages.push_back(next);
    };
    go([](Choices& c) { c.view.cutaway = 1; });
    go([](Choices& c) { c.whatIf.feed = 0.5; });
    go([](Choices& c) { c.whatIf.wears = {{2, 0.1, 0}}; });
    go([](Choices& c) { c.bookmarks = {3}; });
    go([](Choices& c) { c.measure = {1, 2}; });
    go([](Choices& c) { c.mistake = Mistake{}; });
    go([](Choices& c) { c.loop = TimeSpan{1, 2}; });
    history.forget({Part::Loop});
    EXPECT_EQ(history.undoWords(), "mistake: ");
    history.forget({Part::OffsetsAndTools, Part::Mistake});
    EXPECT_EQ(history.undoWords(), "bodies chosen for measuring");
    history.forget({Part::Measure});
    EXPECT_EQ(history.undoWords(), "bookmark at line 4");
    history.forget({Part::Bookmarks});
    // What stands on the panel stays, without the wear that was put away.
    const auto step = history.undo();
    ASSERT_TRUE(step);
    EXPECT_EQ(changeInWords(step->from, step->to), "feed override");
    EXPECT_EQ(history.undoWords(), "billet whole or cut away");
}

TEST(ChangeHistory, KeepsTheNewestOfVeryMany) {
    ChangeHistory history;
    Choices now;
    for (std::size_t i = 1; i <= 2000; ++i) {
        Choices next = now;
        next.bookmarks = {i};
        history.note(now, next, i);
        now = next;
    }
    std::size_t steps = 0;
    for (; history.undo(); ++steps) {
    }
    EXPECT_EQ(steps, 500u);
}

}  // namespace
}  // namespace firstoff::gui
