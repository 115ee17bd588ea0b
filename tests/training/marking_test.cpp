// Answers to a small lesson, and what is said to them.
#include "sim/training/marking.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/training/lesson_bench.h"

namespace firstoff {
namespace {

using shop::LessonBench;
using shop::told;
using testing::HasSubstr;
using testing::Not;

TEST(Marking, OfANumberKnowsTheSlipsThatTeachersKnow) {
    const LessonBench bench;
    const Lesson lesson = bench.read();  // the answer is 27 mm
    struct Row {
        double given;
        Mark mark;
        const char* told;
    };
    for (const Row& row :
         {Row{27, Mark::Right, "Right: 27 mm."}, Row{27.0099, Mark::Right, "27"}, Row{27.02, Mark::Wrong, "too much"},
          Row{26.9, Mark::Wrong, "too little"}, Row{13.5, Mark::Wrong, "half"}, Row{54, Mark::Wrong, "twice"},
          Row{-27, Mark::Wrong, "sign"}, Row{2.7, Mark::Wrong, "decimal point"}}) {
        const Marking marking = shop::mark(lesson, 2, NumberAnswer{row.given});
        EXPECT_EQ(marking.mark, row.mark) << row.given;
        EXPECT_THAT(told(marking), HasSubstr(row.told));
        if (row.mark == Mark::Wrong) {
            EXPECT_THAT(told(marking), Not(HasSubstr("Right"))) << "the answer is not given away";
        }
    }
    EXPECT_EQ(shop::mark(lesson, 2, NumberAnswer{std::numeric_limits<double>::quiet_NaN()}).mark, Mark::Unusable);
}

TEST(Marking, OfAnotherKindOfAnswerIsNone) {
    const LessonBench bench;
    const Lesson lesson = bench.read();
    EXPECT_EQ(shop::mark(lesson, 1, NumberAnswer{1}).mark, Mark::Unusable);
    EXPECT_EQ(shop::mark(lesson, 2, ChosenAnswer{{0}}).mark, Mark::Unusable);
    EXPECT_EQ(shop::mark(lesson, 3, PlaceAnswer{1, 1}).mark, Mark::Unusable);
    EXPECT_EQ(shop::mark(lesson, 9, NumberAnswer{1}).mark, Mark::Unusable);
    EXPECT_EQ(shop::mark(lesson, 1, SeenAnswer{}).mark, Mark::Right);
}

// The good program with one piece of it written otherwise.
struct Edit {
    const char* name;
    const char* what;
    const char* with;
    Mark mark;
    const char* told;  // among reply and remarks
};

class MarkedProgram : public testing::TestWithParam<Edit> {};

TEST_P(MarkedProgram, IsJudgedByWhatItMakes) {
    const Edit& row = GetParam();
    const LessonBench bench;
    bench.change("lesson.toml", "tolerance_mm = 0.02",
                 "tolerance_mm = 0.02\nmost_longer_s = 5\nspeed_clamp = true\nsurface_speed = true\n"
                 "most_rev_per_min = 2500\ndeepest_cut_mm = 2");
    bench.put("answer.nc", bench.contents("stud.nc"));
    bench.change("answer.nc", row.what, row.with);
    const Marking marking = shop::mark(bench.read(), 3, ProgramAnswer{bench.contents("answer.nc")});
    EXPECT_EQ(marking.mark, row.mark) << told(marking);
    EXPECT_THAT(told(marking), HasSubstr(row.told));
    EXPECT_NE(marking.trial, nullptr);
}

INSTANTIATE_TEST_SUITE_P(
    Edits, MarkedProgram,
    testing::Values(
        Edit{"writtenOtherwise", "N200 X24.", "N200 U-8.", Mark::Right, "Right"},
        Edit{"oneCutMore", "N160 X27.", "N155 X29.\nN156 G01 Z-19. F0.25\nN157 X32.\nN158 G00 Z2.\nN160 X27.",
             Mark::Right, "Right"},
        Edit{"withinTheTolerance", "N200 X24.", "N200 X24.03", Mark::Right, "Right"},
        // 0.05 too large in diameter is 0.025 on the surface.
        Edit{"tooLarge", "N200 X24.", "N200 X24.05", Mark::Wrong, "up to 0.050 mm too large in diameter"},
        Edit{"tooSmall", "N200 X24.", "N200 X23.9", Mark::Wrong, "up to 0.100 mm too small in diameter"},
        Edit{"tooLong", "N210 G01 Z-20.", "N210 G01 Z-20.3", Mark::Wrong, "up to 0.300 mm of metal too little"},
        Edit{"notFaced", "N140 G01 X-1.6 F0.2", "N140 G00 Z1.5", Mark::Wrong, "metal too much"},
        Edit{"rapidIntoMetal", "N210 G01 Z-20.", "N210 G00 Z-20.", Mark::Wrong, "line 21"},
        Edit{"notKnown", "N225 G97 S1200 M09", "N225 G97 S1200 M09\nG123", Mark::NotProven, "Not proven"},
        Edit{"withoutClamp", "N110 G50 S2500", "N110", Mark::Wrong, "without a speed clamp"},
        Edit{"tooFast", "N110 G50 S2500", "N110 G50 S3000", Mark::Wrong, "no more than 2500 are allowed"},
        Edit{"withoutSurfaceSpeed", "N120 G96 S180 M03", "N120 G97 S2000 M03", Mark::Wrong,
             "not cut at constant surface"},
        Edit{"tooDeep", "N160 X27.", "N160 X25.", Mark::Wrong, "no more than 2 are allowed"},
        Edit{"tooLongInTime", "N170 G01 Z-20. F0.25", "N170 G01 Z-20. F0.08", Mark::Wrong, "longer than the model"},
        Edit{"brokenOff", "N150 G00 Z2.", "M30", Mark::Wrong, "up to 6.000 mm too large"}),
    [](const auto& row) { return std::string(row.param.name); });

TEST(Marking, OfNoProgramAtAllIsUnusable) {
    const LessonBench bench;
    const Marking marking = shop::mark(bench.read(), 3, ProgramAnswer{std::string("a\0b", 3)});
    EXPECT_EQ(marking.mark, Mark::Unusable);
    EXPECT_FALSE(marking.reply.empty());
}

// What the model solution leaves open may be left open, and is said; more may not.
TEST(Marking, IsNoStricterThanTheModelOnWhatIsNotProven) {
    const LessonBench bench;
    bench.put("model.nc", bench.contents("stud.nc"));
    bench.change("model.nc", "N240 M05", "N240 M05\nM123");
    bench.change("lesson.toml", "solution = \"stud.nc\"", "solution = \"model.nc\"");
    const Lesson lesson = bench.read();
    const Marking same = shop::mark(lesson, 3, ProgramAnswer{bench.contents("model.nc")});
    EXPECT_EQ(same.mark, Mark::Right);
    EXPECT_THAT(told(same), HasSubstr("The model solution leaves this open too."));
    bench.change("model.nc", "M123", "M123\nM124");
    EXPECT_EQ(shop::mark(lesson, 3, ProgramAnswer{bench.contents("model.nc")}).mark, Mark::Right);
    EXPECT_EQ(markTried(lesson, tryLesson(bench.read(), {}, 3), 3,
                        tryProgram(bench.contents("stud.nc"), bench.folder() / "stud.nc", bench.folder() / "stud.toml"))
                  .mark,
              Mark::Right);
}

TEST(Marking, OfAFigureThatHangsOnWhatIsNotUnderstoodIsNotProven) {
    const LessonBench bench;
    bench.change("stud.nc", "N160 X27.", "N160 X27. M123");
    const Marking marking = shop::mark(bench.read(), 2, NumberAnswer{27});
    EXPECT_EQ(marking.mark, Mark::NotProven) << told(marking);
}

TEST(Marking, OfAPlaceTellsHowFarItIsOff) {
    const LessonBench bench;
    bench.change("lesson.toml",
                 "kind = \"number\"\nname = \"diameter\"\nquantity = \"end_x_mm\"\nline = \"N160\"\ntolerance",
                 "kind = \"predict\"\nname = \"diameter\"\nline = \"N160\"\ntolerance_mm");
    bench.change("lesson.toml", "tolerance_mm = 0.01", "tolerance_mm = 0.5");
    const Lesson lesson = bench.read();
    ASSERT_EQ(shop::faultsOf(lesson), "");
    EXPECT_EQ(shop::mark(lesson, 2, PlaceAnswer{27.9, 2.1}).mark, Mark::Right);
    const Marking wrong = shop::mark(lesson, 2, PlaceAnswer{30, 0.8});
    EXPECT_EQ(wrong.mark, Mark::Wrong);
    EXPECT_THAT(wrong.reply, HasSubstr("X is 3.00 mm too large in diameter. Z is 1.20 mm too near the chuck."));
    EXPECT_THAT(shop::mark(lesson, 2, PlaceAnswer{13.5, 2}).reply, HasSubstr("half"));
}

class ChoicesTest : public testing::Test {
protected:
    ChoicesTest() {
        bench.put("lesson.toml", R"(title = "t"
program = "stud.nc"
setup = "stud.toml"
[[step]]
kind = "choose"
question = "q"
hint = "a hint"
[[step.choice]]
text = "a"
right = true
[[step.choice]]
text = "b"
reply = "not b"
[[step.choice]]
text = "c"
right = true
)");
    }
    Marking of(const std::string& text) const {
        std::string trouble;
        const Lesson lesson = bench.read();
        const auto answer = answerOf(lesson, 1, text, trouble);
        return answer ? shop::mark(lesson, 1, *answer) : Marking{Mark::Unusable, trouble, {}, nullptr, {}};
    }
    LessonBench bench;
};

TEST_F(ChoicesTest, AllOfTheRightOnesAndNoOther) {
    EXPECT_EQ(of("a c").mark, Mark::Right);
    EXPECT_EQ(of("3,1").mark, Mark::Right);
    EXPECT_EQ(of("A, C, c").mark, Mark::Right);
    EXPECT_EQ(of("a").mark, Mark::Wrong);
    EXPECT_THAT(told(of("a")), HasSubstr("not all of it"));
    EXPECT_THAT(told(of("a b c")), HasSubstr("not b"));
    EXPECT_THAT(told(of("b")), HasSubstr("a hint"));
    for (const char* nothing : {"", "d", "0", "-1", "x1", "99999999999"})
        EXPECT_EQ(of(nothing).mark, Mark::Unusable) << nothing;
}

TEST(AnswerText, IsReadAsItIsWritten) {
    const LessonBench bench;
    const Lesson lesson = bench.read();
    std::string trouble;
    for (const char* text : {"27", " 27.0 ", "27 mm", "+27", "27,0"}) {
        const auto answer = answerOf(lesson, 2, text, trouble);
        ASSERT_TRUE(answer) << text;
        EXPECT_EQ(std::get<NumberAnswer>(*answer).number, 27) << text;
    }
    for (const char* text : {"", "mm", "27 inch", "1.2.3", "2-7", "1e3"}) {
        trouble.clear();
        EXPECT_FALSE(answerOf(lesson, 2, text, trouble)) << text;
        EXPECT_FALSE(trouble.empty());
    }
    EXPECT_FALSE(answerOf(lesson, 9, "1", trouble));
}

TEST(AnswerText, OfAGapMayBeItsBlocksAlone) {
    EXPECT_EQ(withGapFilled("%\n(GAP)\nM30\n%\n", "(GAP)", "G00 X1.\nZ2.\n"), "%\nG00 X1.\nZ2.\nM30\n%\n");
    EXPECT_EQ(withGapFilled("%\r\n (GAP) \r\nM30", "(GAP)", "G00 X1."), "%\r\nG00 X1.\nM30");
    EXPECT_EQ(withGapFilled("%\nM30", "(GAP)", "G00"), "%\nM30");
}

TEST(Marking, OfAGapMarksTheWholeProgram) {
    const LessonBench bench;
    bench.change("lesson.toml", "kind = \"mend\"\nprogram = \"stud-to-mend.nc\"",
                 "kind = \"write\"\nprogram = \"stud-with-gap.nc\"\ngap = \"(HERE THE LAST CUT IS MISSING)\"");
    const Lesson lesson = bench.read();
    ASSERT_EQ(shop::faultsOf(lesson), "");
    std::string trouble;
    const auto right = answerOf(lesson, 3, "X24.\nG01 Z-20.\nX32.", trouble);
    EXPECT_EQ(shop::mark(lesson, 3, *right).mark, Mark::Right);
    const auto left = answerOf(lesson, 3, "(NOTHING)", trouble);
    EXPECT_EQ(shop::mark(lesson, 3, *left).mark, Mark::Wrong);
    const auto whole = answerOf(lesson, 3, bench.contents("stud.nc"), trouble);
    EXPECT_EQ(shop::mark(lesson, 3, *whole).mark, Mark::Right);
}

}  // namespace
}  // namespace firstoff
