// `firstoff lesson` and `firstoff lessons` as a shell and a script see them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "tests/cli/command_run.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::CommandRun;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string kLessons = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/lessons";
const std::string kFirst = kLessons + "/01-reading-a-block";

struct Answer {
    const char* arguments;
    int exitCode;
    const char* told;
};

class LessonAnswer : public testing::TestWithParam<Answer> {};

TEST_P(LessonAnswer, HasItsExitCode) {
    const CommandRun run = shop::firstoff("lesson " + kFirst + " " + GetParam().arguments);
    EXPECT_EQ(run.exitCode, GetParam().exitCode) << run.out << run.err;
    EXPECT_THAT(run.exitCode == 2 ? run.err : run.out, HasSubstr(GetParam().told));
}

INSTANTIATE_TEST_SUITE_P(
    Rows, LessonAnswer,
    testing::Values(Answer{"--step 3 --answer b", 0, "Right."}, Answer{"--step 3 --answer a", 1, "rapid is rapid"},
                    Answer{"--step 4 --answer 'X27 Z2'", 0, "Right"}, Answer{"--step 6 --answer -2", 1, "sign"},
                    Answer{"--step 8 --answer 'X24.\nG01 Z-20.\nX32. M123'", 3, "Not proven"},
                    Answer{"--step 6 --answer two", 2, "Write a number"},
                    Answer{"--step 8 --answer missing.nc", 2, "no such file"},
                    Answer{"--step 99 --answer 1", 2, "steps 1 to 8"}, Answer{"--step 0", 2, "--step"},
                    Answer{"--answer 1", 2, "--step"}, Answer{"--step 2", 0, "A block is made of words"}));

TEST(LessonCommand, MarksAFile) {
    EXPECT_EQ(shop::firstoff("lesson " + kFirst + " --step 7 --answer " + kFirst + "/stud.nc").exitCode, 0);
    const CommandRun run = shop::firstoff("lesson " + kFirst + " --step 7 --answer " + kFirst + "/stud-to-mend.nc");
    EXPECT_EQ(run.exitCode, 1);
    EXPECT_THAT(run.out, HasSubstr("line 17"));
    EXPECT_THAT(run.out, HasSubstr("This does not replace a dry run"));
}

TEST(LessonCommand, ChecksALessonByItsFolderOrByItsName) {
    for (const std::string& said : {kFirst, kFirst + "/", std::string("01-reading-a-block")}) {
        const CommandRun run = shop::firstoff("lesson " + said);
        EXPECT_EQ(run.exitCode, 0) << run.out << run.err;
        EXPECT_THAT(run.out, HasSubstr("01-reading-a-block: "));
        EXPECT_THAT(run.out, HasSubstr("The lesson can be given."));
    }
}

TEST(LessonCommand, TellsALessonThatCannotBeGiven) {
    const Bench bench;
    bench.put("lesson.md", "# Only a text\n\n## One\n");
    const CommandRun run = shop::firstoff("lesson " + bench.path(""));
    EXPECT_EQ(run.exitCode, 1);
    EXPECT_THAT(run.out, HasSubstr("lesson.toml"));
    EXPECT_THAT(run.out, HasSubstr("cannot be given"));
}

TEST(LessonCommand, AFolderWithoutOneIsUnusable) {
    const Bench bench;
    const CommandRun empty = shop::firstoff("lesson " + bench.path(""));
    EXPECT_EQ(empty.exitCode, 2);
    EXPECT_THAT(empty.err, HasSubstr("no lesson"));
    EXPECT_EQ(shop::firstoff("lesson /nowhere").exitCode, 2);
}

TEST(LessonsCommand, ListsWhatIsShipped) {
    const CommandRun run = shop::firstoff("lessons");
    EXPECT_EQ(run.exitCode, 0) << run.err;
    EXPECT_THAT(run.out, HasSubstr("01-reading-a-block            Reading a block (8 steps), about 20 minutes\n"));
    EXPECT_EQ(shop::firstoff("lessons " + kLessons).out, run.out);
    EXPECT_THAT(run.err, IsEmpty());
}

TEST(LessonsCommand, AFolderWithoutAnyIsUnusable) {
    const Bench bench;
    EXPECT_EQ(shop::firstoff("lessons " + bench.path("")).exitCode, 2);
    EXPECT_EQ(shop::firstoff("lessons /nowhere").exitCode, 2);
}

}  // namespace
}  // namespace firstoff
