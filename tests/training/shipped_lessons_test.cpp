// The lessons that ship can be given as they stand, and the page for those who write more says what the reader reads.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <sstream>
#include <string>

#include "sim/training/lesson_check.h"
#include "sim/training/lesson_keys.h"
#include "sim/training/lesson_shelf.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using testing::AllOf;
using testing::Ge;
using testing::Le;
using testing::SizeIs;

std::vector<std::filesystem::path> shipped() {
    return lessonFolders(std::string(FIRSTOFF_SOURCE_DIR) + "/assets/lessons");
}

TEST(ShippedLessons, AreTen) {
    EXPECT_THAT(shipped(), SizeIs(10));
}

class ShippedLesson : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(ShippedLesson, CanBeGiven) {
    const Lesson lesson = readLesson(GetParam());
    const LessonCheck check = checkLesson(lesson, tryLesson(lesson));
    EXPECT_TRUE(check.good()) << lessonReport(lesson, check);
}

TEST_P(ShippedLesson, MixesItsKinds) {
    const Lesson lesson = readLesson(GetParam());
    EXPECT_THAT(lesson.steps.size(), AllOf(Ge(5u), Le(9u)));
    std::set<LessonStep::Kind> kinds;
    for (const LessonStep& step : lesson.steps) kinds.insert(step.kind);
    EXPECT_GE(kinds.size(), 4u);
    EXPECT_FALSE(lesson.about.empty());
    EXPECT_GT(lesson.minutes, 0);
    EXPECT_FALSE(lesson.opening.empty());
}

// Whoever picks the first choice everywhere must not come through.
TEST_P(ShippedLesson, RightChoicesDoNotAlwaysStandFirst) {
    const Lesson lesson = readLesson(GetParam());
    int asked = 0, first = 0;
    for (const LessonStep& step : lesson.steps) {
        if (step.kind != LessonStep::Kind::Choose) continue;
        ++asked;
        first += step.choices.front().right ? 1 : 0;
    }
    EXPECT_TRUE(asked == 0 || first < asked);
}

// A figure that hangs on the job is gauged from it.
TEST_P(ShippedLesson, HoldsNoFigureThatCouldGoStale) {
    for (const LessonStep& step : readLesson(GetParam()).steps) EXPECT_FALSE(step.answer.has_value()) << step.name;
}

INSTANTIATE_TEST_SUITE_P(All, ShippedLesson, testing::ValuesIn(shipped()), [](const auto& of) {
    std::string name = of.param.filename().string();
    std::erase(name, '-');
    return name;
});

// "table key" for every row of a table under a heading that names it.
std::set<std::string> describedKeys() {
    std::istringstream page(shop::readFile("assets/lessons/writing-lessons.md"));
    std::set<std::string> keys;
    std::string line, table;
    bool inTables = false;
    while (std::getline(page, line)) {
        if (line.starts_with("## ")) {
            inTables = line == "## Above all steps" || line == "## [[step]]" || line == "## [[step.choice]]";
            table = line == "## [[step]]" ? "step" : line == "## [[step.choice]]" ? "choice" : "";
        } else if (inTables && line.starts_with("| `")) {
            keys.insert(table + " " + line.substr(3, line.find('`', 3) - 3));
        }
    }
    return keys;
}

TEST(WritingLessons, EveryKeyThatIsReadIsDescribedAndNoOther) {
    std::set<std::string> known;
    for (const LessonKey& key : lessonKeys()) known.insert(std::string(key.table) + " " + std::string(key.key));
    EXPECT_EQ(describedKeys(), known);
    EXPECT_EQ(known.size(), lessonKeys().size()) << "a key stands twice in the table";
}

// Names in the first column of the table below a heading.
std::set<std::string> firstColumn(const std::string& heading) {
    std::istringstream page(shop::readFile("assets/lessons/writing-lessons.md"));
    std::set<std::string> names;
    std::string line;
    bool here = false;
    while (std::getline(page, line)) {
        if (line.starts_with("## ")) here = line == heading;
        if (here && line.starts_with("| `")) names.insert(line.substr(3, line.find('`', 3) - 3));
    }
    return names;
}

TEST(WritingLessons, EveryQuantityIsDescribedWithItsUnit) {
    std::set<std::string> known;
    const std::string page = shop::readFile("assets/lessons/writing-lessons.md");
    for (const QuantityName& quantity : quantities()) {
        known.insert(std::string(quantity.name));
        const std::string row =
            fmt::format("| `{}` | {} |", quantity.name, quantity.unit.empty() ? "–" : quantity.unit);
        EXPECT_NE(page.find(row), std::string::npos) << row;
    }
    EXPECT_EQ(firstColumn("## Quantities"), known);
    // The keys of a quantity must be keys of a step, and the choice must offer it.
    for (const QuantityName& quantity : quantities())
        EXPECT_NE(lessonKey("step", "quantity")->choices.find(quantity.name), std::string_view::npos) << quantity.name;
}

// No kind of step and no view is kept from whoever writes.
TEST(WritingLessons, NamesEveryKindOfStepAndEveryView) {
    const std::string page = shop::readFile("assets/lessons/writing-lessons.md");
    for (const std::string_view list : {kStepKinds, kLessonViews}) {
        std::istringstream names{std::string(list)};
        for (std::string name; std::getline(names, name, '|');)
            EXPECT_NE(page.find("`" + name + "`"), std::string::npos) << name;
    }
}

}  // namespace
}  // namespace firstoff
