// Lessons that somebody spoilt: each fault is told with its file, its line and a remedy, and the rest works on.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/training/lesson_check.h"
#include "tests/training/lesson_bench.h"

namespace firstoff {
namespace {

using shop::faultsOf;
using shop::LessonBench;
using shop::lineWith;
using testing::HasSubstr;
using testing::SizeIs;

TEST(LessonReader, ReadsAWholeLesson) {
    const LessonBench bench;
    const Lesson lesson = bench.read();
    EXPECT_EQ(faultsOf(lesson), "");
    EXPECT_EQ(lesson.title, "Stud");
    ASSERT_THAT(lesson.steps, SizeIs(3));
    EXPECT_EQ(lesson.steps[0].title, "First");
    EXPECT_EQ(lesson.steps[0].name, "step-1");
    EXPECT_THAT(lesson.steps[0].text, SizeIs(2));
    EXPECT_EQ(lesson.steps[1].name, "diameter");
    EXPECT_EQ(lesson.steps[1].unit, "mm");
    EXPECT_EQ(lesson.steps[2].program, "stud-to-mend.nc");
    EXPECT_TRUE(checkLesson(lesson, tryLesson(lesson)).good());
}

struct Spoilt {
    const char* name;
    const char* file;
    const char* what;  // that is replaced
    const char* with;
    const char* line;  // of that file, on which it is told: the one with this text; empty: none
    const char* cause;
    int step;  // that cannot be answered then; 0: all can
};

class SpoiltLesson : public testing::TestWithParam<Spoilt> {};

TEST_P(SpoiltLesson, IsToldAtItsLineAndTheRestWorks) {
    const Spoilt& row = GetParam();
    const LessonBench bench;
    bench.change(row.file, row.what, row.with);
    const Lesson lesson = bench.read();
    ASSERT_FALSE(lesson.faults.empty());
    const LessonFault& fault = lesson.faults.front();
    EXPECT_EQ(fault.file, row.file);
    EXPECT_EQ(fault.line, *row.line ? lineWith(bench.contents(row.file), row.line) : 0) << faultsOf(lesson);
    EXPECT_THAT(fault.cause, HasSubstr(row.cause));
    EXPECT_FALSE(fault.remedy.empty());
    ASSERT_THAT(lesson.steps, SizeIs(3));
    for (int step = 1; step <= 3; ++step) EXPECT_EQ(lesson.steps[step - 1].usable, step != row.step) << step;
    EXPECT_FALSE(checkLesson(lesson, tryLesson(lesson)).good());
}

INSTANTIATE_TEST_SUITE_P(
    Toml, SpoiltLesson,
    testing::Values(
        Spoilt{"noTitle", "lesson.toml", "title = \"Stud\"", "# none", "# none", "title is missing", 0},
        Spoilt{"unknownKey", "lesson.toml", "title =", "colour = 3\ntitle =", "colour", "no key colour", 0},
        Spoilt{"keyOfOtherKind", "lesson.toml", "kind = \"show\"", "kind = \"show\"\nsolution = \"stud.nc\"",
               "solution", "solution has no meaning", 0},
        Spoilt{"keyInALanguageItHasNot", "lesson.toml", "lines =", "lines_de =", "lines_de", "no key lines_de", 0},
        Spoilt{"noSuchLine", "lesson.toml", "\"N160\"", "\"N165\"", "N165", "stud.nc has no N165", 2},
        Spoilt{"lineBehindTheEnd", "lesson.toml", "\"N160\"", "500", "line = 500", "has no line 500", 2},
        Spoilt{"noSuchLines", "lesson.toml", "[\"N130\", \"N140\"]", "[\"N130\", \"N141\"]", "N141", "has no N141", 0},
        Spoilt{"linesOfThree", "lesson.toml", "[\"N130\", \"N140\"]", "[1, 2, 3]", "[1, 2, 3]", "lines is not", 0},
        Spoilt{"lineNought", "lesson.toml", "[\"N130\", \"N140\"]", "0", "lines = 0", "lines is not", 0},
        Spoilt{"noSuchQuantity", "lesson.toml", "end_x_mm", "length_of_the_bed", "length_of", "quantity is not", 2},
        Spoilt{"quantityWithoutItsLine", "lesson.toml", "line = \"N160\"", "", "quantity", "needs the key line", 2},
        Spoilt{"quantityWithTooMuch", "lesson.toml", "line = \"N160\"", "line = \"N160\"\nz_mm = 2", "z_mm",
               "no meaning beside", 2},
        Spoilt{"answerAndQuantity", "lesson.toml", "line = \"N160\"", "line = \"N160\"\nanswer = 4", "answer",
               "One of quantity and answer", 2},
        Spoilt{"toleranceBelowNought", "lesson.toml", "tolerance = 0.01", "tolerance = -1", "tolerance = -1",
               "tolerance is not", 2},
        Spoilt{"toleranceNoNumber", "lesson.toml", "tolerance = 0.01", "tolerance = nan", "tolerance = nan",
               "tolerance is not", 2},
        Spoilt{"noSolution", "lesson.toml", "solution = \"stud.nc\"", "", "[[step]]\nkind = \"mend\"",
               "solution is missing", 3},
        Spoilt{"solutionNotThere", "lesson.toml", "solution = \"stud.nc\"", "solution = \"other.nc\"", "other.nc",
               "no usable file other.nc", 3},
        Spoilt{"solutionFromTheRoot", "lesson.toml", "solution = \"stud.nc\"", "solution = \"/etc/passwd\"", "/etc",
               "path from the root", 3},
        Spoilt{"toleranceMmOutOfRange", "lesson.toml", "tolerance_mm = 0.02", "tolerance_mm = 0", "tolerance_mm",
               "tolerance_mm is not", 3},
        Spoilt{"cycleThatIsNone", "lesson.toml", "tolerance_mm", "cycles = [\"G01\"]\ntolerance_mm", "cycles",
               "G01 is no cycle", 3},
        Spoilt{"goneIsNoList", "lesson.toml", "tolerance_mm", "gone = \"x\"\ntolerance_mm", "gone", "gone is not", 3},
        Spoilt{"noKind", "lesson.toml", "kind = \"number\"\n", "", "[[step]]\nname = \"diameter\"", "of what kind", 0},
        Spoilt{"sameName", "lesson.toml", "kind = \"show\"", "kind = \"show\"\nname = \"diameter\"",
               "[[step]]\nkind = \"number\"", "name diameter", 0}),
    [](const auto& row) { return std::string(row.param.name); });

INSTANTIATE_TEST_SUITE_P(Text, SpoiltLesson,
                         testing::Values(Spoilt{"headingTooFew", "lesson.md", "## Third", "Third", "", "2 headings", 0},
                                         Spoilt{"headingTooMany", "lesson.md", "Mend.", "## More", "", "4 headings", 0},
                                         Spoilt{"html", "lesson.md", "Mend.", "<table>", "<table>", "HTML", 0},
                                         Spoilt{"pictureOfNoLine", "lesson.md", "part@end", "part@N999", "N999",
                                                "wants N999", 0},
                                         Spoilt{"binary", "lesson.md", "Look.", "Look\x01", "Look", "no text", 0}),
                         [](const auto& row) { return std::string(row.param.name); });

TEST(LessonReader, TellsTomlThatCannotBeReadAndShowsTheText) {
    const LessonBench bench;
    bench.change("lesson.toml", "lines = [\"N130\", \"N140\"]", "lines = [\"N130\", ");
    const Lesson lesson = bench.read();
    ASSERT_FALSE(lesson.faults.empty());
    EXPECT_EQ(lesson.faults[0].file, "lesson.toml");
    EXPECT_GE(lesson.faults[0].line, lineWith(bench.contents("lesson.toml"), "N130"));
    EXPECT_THAT(lesson.faults[0].cause, HasSubstr("TOML"));
    EXPECT_TRUE(lesson.usable());
    EXPECT_FALSE(lesson.opening.empty());
}

TEST(LessonReader, TellsFilesThatAreMissing) {
    for (const char* file : {"lesson.toml", "lesson.md", "stud.nc", "stud.toml"}) {
        const LessonBench bench;
        bench.remove(file);
        const Lesson lesson = bench.read();
        EXPECT_THAT(faultsOf(lesson), HasSubstr(file));
        EXPECT_TRUE(lesson.usable());
        EXPECT_FALSE(checkLesson(lesson, tryLesson(lesson)).good());
    }
}

TEST(LessonReader, AFolderWithoutALessonIsNotUsable) {
    EXPECT_FALSE(readLesson("/nowhere/at/all").usable());
    EXPECT_FALSE(readLesson("/nowhere/at/all").faults.empty());
}

TEST(LessonReader, HugeFilesAreNotRead) {
    const LessonBench bench;
    bench.put("lesson.md", std::string(std::size_t{1} << 20, 'a'));
    EXPECT_THAT(faultsOf(bench.read()), HasSubstr("lesson.md: The file has 1048576 bytes"));
    bench.put("lesson.toml", std::string(std::size_t{1} << 20, '#'));
    EXPECT_FALSE(bench.read().usable());
}

TEST(LessonReader, ChoicesNeedARightOneAndAWrongOne) {
    for (const char* rights : {"", "right = true\n"}) {
        const LessonBench bench;
        std::string choices;
        for (const char* text : {"a", "b"})
            choices += "[[step.choice]]\ntext = \"" + std::string(text) + "\"\n" + rights;
        bench.put("lesson.toml",
                  "title = \"t\"\nprogram = \"stud.nc\"\nsetup = \"stud.toml\"\n[[step]]\nkind = \"choose\"\n"
                  "question = \"q\"\n" +
                      choices);
        const Lesson lesson = bench.read();
        EXPECT_THAT(faultsOf(lesson), HasSubstr("There must be a right choice and a wrong one"));
        EXPECT_FALSE(lesson.steps[0].usable);
    }
}

TEST(LessonReader, TheGapMustStandInTheProgramOnce) {
    for (const char* gap : {"(NOT THERE)", "M30", "(G54: Z0 IS THE FINISHED FACE)"}) {
        const LessonBench bench;
        bench.change("lesson.toml", "kind = \"mend\"", "kind = \"write\"\ngap = \"" + std::string(gap) + "\"");
        const bool there = std::string(gap).starts_with("(G54");
        EXPECT_EQ(bench.read().steps[2].usable, there) << gap;
    }
}

TEST(LessonReader, TakesAnotherLanguageWhereItIsThere) {
    const LessonBench bench;
    bench.put("lesson.de.md", "# Bolzen\n\n## Eins\n\n## Zwei\n\n## Drei\n");
    bench.change("lesson.toml", "title = \"Stud\"", "title = \"Stud\"\ntitle_de = \"Bolzen\"");
    EXPECT_EQ(faultsOf(bench.read("de")), "");
    EXPECT_EQ(bench.read("de").title, "Bolzen");
    EXPECT_EQ(bench.read("de").steps[1].title, "Zwei");
    EXPECT_EQ(bench.read("de").steps[1].question, "Which X?");  // there is no other
    EXPECT_EQ(bench.read("fr").title, "Stud");
    EXPECT_EQ(bench.read().steps[1].title, "Second");
}

TEST(LessonCheck, TellsAModelSolutionThatIsItselfWrong) {
    const LessonBench bench;
    bench.change("lesson.toml", "solution = \"stud.nc\"", "solution = \"stud-to-mend.nc\"");
    const Lesson lesson = bench.read();
    const LessonCheck check = checkLesson(lesson, tryLesson(lesson));
    EXPECT_FALSE(check.steps[2].good);
    EXPECT_THAT(lessonReport(lesson, check), HasSubstr("Its own answer is marked wrong"));
    EXPECT_TRUE(check.steps[0].good);
    EXPECT_TRUE(check.steps[1].good);
}

TEST(LessonCheck, TellsAProgramThatHasNothingToMend) {
    const LessonBench bench;
    bench.change("lesson.toml", "program = \"stud-to-mend.nc\"", "program = \"stud.nc\"");
    const Lesson lesson = bench.read();
    EXPECT_THAT(lessonReport(lesson, checkLesson(lesson, tryLesson(lesson))), HasSubstr("there is nothing to do"));
}

TEST(LessonCheck, TellsAFigureThatNobodyCouldHit) {
    const LessonBench bench;
    bench.change("lesson.toml", "quantity = \"end_x_mm\"", "quantity = \"rev_per_min\"");
    bench.change("lesson.toml", "tolerance = 0.01", "tolerance = 0");
    const Lesson lesson = bench.read();
    EXPECT_THAT(lessonReport(lesson, checkLesson(lesson, tryLesson(lesson))), HasSubstr("nobody would hit it"));
    bench.change("lesson.toml", "tolerance = 0", "tolerance = 100000");
    const Lesson wide = bench.read();
    EXPECT_THAT(lessonReport(wide, checkLesson(wide, tryLesson(wide))), HasSubstr("0 would be right"));
}

TEST(LessonCheck, TellsWhatIsGaugedFromNothing) {
    const LessonBench bench;
    bench.change("lesson.toml", "quantity = \"end_x_mm\"", "quantity = \"passes\"");
    const Lesson lesson = bench.read();
    EXPECT_THAT(lessonReport(lesson, checkLesson(lesson, tryLesson(lesson))), HasSubstr("calls no cycle"));
}

}  // namespace
}  // namespace firstoff
