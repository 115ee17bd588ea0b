// The training room of the window: lessons opened, answered, marked beside the window, kept in a record.
#include "gui/lessons/lesson_room.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "sim/base/say.h"
#include "tests/support/work_folder.h"

namespace firstoff::gui {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

class Room : public testing::Test {
protected:
    LessonRoom open() {
        return LessonRoom(fs::path(FIRSTOFF_SOURCE_DIR) / "assets" / "lessons", folder / "progress.toml", {});
    }
    static int stepOf(const LessonRoom& room, LessonStep::Kind kind) {
        const auto& steps = room.lesson()->steps;
        const auto found =
            std::find_if(steps.begin(), steps.end(), [&](const LessonStep& s) { return s.kind == kind; });
        return static_cast<int>(found - steps.begin()) + 1;
    }
    static void mark(LessonRoom& room) {
        room.mark("2026-05-01");
        room.finish();
        room.takeReply();
    }

    const shop::WorkFolder folder;
};

TEST_F(Room, ListsTheLessonsThatShip) {
    LessonRoom room(fs::path(FIRSTOFF_SOURCE_DIR) / "assets" / "lessons", {}, {});
    ASSERT_EQ(room.rows().size(), 10u);
    for (const LessonRow& row : room.rows()) {
        EXPECT_FALSE(row.title.empty());
        EXPECT_FALSE(row.faulty) << row.title;
        EXPECT_EQ(row.right, 0);
    }
}

TEST_F(Room, TellsItsLessonsInAnotherLanguageWhileOneIsOpen) {
    LessonRoom room = open();
    room.open(room.rows().front().folder);
    room.go(2);
    room.work().number = "12";
    const std::string row = room.rows().front().title, title = room.lesson()->title;
    ASSERT_TRUE(useLanguage("de"));
    room.tellAgain();
    ASSERT_TRUE(useLanguage("en"));
    EXPECT_NE(room.rows().front().title, row);
    EXPECT_NE(room.lesson()->title, title);
    EXPECT_EQ(room.step(), 2);
    EXPECT_EQ(room.work().number, "12");  // what was answered stays
    room.tellAgain();
    EXPECT_EQ(room.rows().front().title, row);
    EXPECT_EQ(room.lesson()->title, title);
}

TEST_F(Room, HandsTheJobOfAStepOver) {
    LessonRoom room = open();
    room.open(room.rows().front().folder);
    const auto scene = room.takeScene();
    ASSERT_TRUE(scene);
    EXPECT_THAT(scene->text, HasSubstr("M30"));
    EXPECT_TRUE(fs::exists(scene->setup));
    EXPECT_FALSE(room.takeScene());  // once
}

TEST_F(Room, MarksAChoiceAndKeepsTheRecord) {
    LessonRoom room = open();
    room.open(room.rows().front().folder);
    room.go(stepOf(room, LessonStep::Kind::Choose));
    mark(room);
    EXPECT_FALSE(room.work().marking);
    EXPECT_FALSE(room.work().trouble.empty());  // nothing was chosen

    const auto& choices = room.current()->choices;
    for (std::size_t i = 0; i < choices.size(); ++i) room.work().chosen[i] = !choices[i].right;
    mark(room);
    ASSERT_TRUE(room.work().marking);
    EXPECT_EQ(room.work().marking->mark, Mark::Wrong);
    EXPECT_FALSE(room.rightAt(room.step()));

    for (std::size_t i = 0; i < choices.size(); ++i) room.work().chosen[i] = choices[i].right;
    mark(room);
    ASSERT_TRUE(room.work().marking);
    EXPECT_EQ(room.work().marking->mark, Mark::Right);
    EXPECT_TRUE(room.rightAt(room.step()));

    // Another window knows it, and goes on where this one was.
    LessonRoom later = open();
    EXPECT_EQ(later.rows().front().right, 1);
}

TEST_F(Room, TellsTheAnswerAndMarksIt) {
    LessonRoom room = open();
    room.open(room.rows().front().folder);
    room.go(stepOf(room, LessonStep::Kind::Predict));
    EXPECT_TRUE(room.wantsPlace());
    room.askForModel();
    room.finish();
    room.takeReply();
    EXPECT_FALSE(room.work().model.empty());
    ASSERT_TRUE(room.work().modelAnswer);
    const auto place = std::get<PlaceAnswer>(*room.work().modelAnswer);
    room.place({place.xMm + 20, place.zMm});
    mark(room);
    EXPECT_EQ(room.work().marking->mark, Mark::Wrong);
    room.place(place);
    EXPECT_FALSE(room.work().marking);  // of another answer
    mark(room);
    EXPECT_EQ(room.work().marking->mark, Mark::Right);
}

TEST_F(Room, KeepsWhatTheLearnerWrote) {
    LessonRoom room = open();
    room.open(room.rows().front().folder);
    const int mend = stepOf(room, LessonStep::Kind::Mend);
    room.go(mend);
    const auto given = room.takeScene();
    ASSERT_TRUE(given);
    EXPECT_TRUE(room.wantsText());
    room.keepText(given->text);
    mark(room);
    EXPECT_EQ(room.work().marking->mark, Mark::Wrong);  // as it was given
    room.keepText(given->text + "(MINE)\n");
    room.go(mend - 1);
    room.go(mend);
    const auto again = room.takeScene();
    ASSERT_TRUE(again);
    EXPECT_THAT(again->text, HasSubstr("(MINE)"));
}

TEST_F(Room, MarksTheModelProgramRight) {
    LessonRoom room = open();
    room.open(room.rows().front().folder);
    room.go(stepOf(room, LessonStep::Kind::Mend));
    room.askForModel();
    room.finish();
    room.takeReply();
    ASSERT_TRUE(room.work().modelAnswer);
    room.keepText(std::get<ProgramAnswer>(*room.work().modelAnswer).text);
    mark(room);
    EXPECT_EQ(room.work().marking->mark, Mark::Right) << room.work().marking->reply;
}

TEST_F(Room, SaysWhatIsWrongWithALesson) {
    fs::create_directories(folder / "shelf" / "01-broken");
    std::ofstream(folder / "shelf" / "01-broken" / "lesson.toml") << "title = \"Broken\"\n[[step]]\nkind = \"dance\"\n";
    LessonRoom room(folder / "shelf", {}, {});
    ASSERT_EQ(room.rows().size(), 1u);
    EXPECT_TRUE(room.rows().front().faulty);
    room.open(room.rows().front().folder);
    ASSERT_TRUE(room.lesson());
    EXPECT_FALSE(room.lesson()->faults.empty());
    room.mark("");  // nothing to mark, and no crash
    room.go(99);
    EXPECT_FALSE(room.takeScene());
}

TEST_F(Room, LeavesASpoiltRecordBesideItself) {
    std::ofstream(folder / "progress.toml") << "not [[[ toml";
    LessonRoom room = open();
    EXPECT_FALSE(room.takeMessage().empty());
    EXPECT_TRUE(fs::exists(folder / "progress.toml.spoilt"));
}

}  // namespace
}  // namespace firstoff::gui
