#include "sim/training/progress.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/training/lesson_bench.h"

namespace firstoff {
namespace {

namespace fs = std::filesystem;
using shop::LessonBench;
using testing::HasSubstr;

TEST(Progress, CountsTriesAndOnceRightStaysRight) {
    const LessonBench bench;
    const Lesson lesson = bench.read();
    Progress progress;
    EXPECT_EQ(progress.of(lesson, 2), StepProgress{});
    progress = withTry(progress, lesson, 2, false, "1 May");
    EXPECT_EQ(progress.of(lesson, 2), (StepProgress{true, false, 1, "1 May"}));
    progress = withTry(progress, lesson, 2, true, "2 May");
    progress = withTry(progress, lesson, 2, false, "");
    EXPECT_EQ(progress.of(lesson, 2), (StepProgress{true, true, 3, ""}));
    EXPECT_EQ(progress.rightSteps(lesson), 1);
}

TEST(Progress, IsReadAsItWasWritten) {
    const LessonBench bench;
    const Lesson lesson = bench.read();
    Progress progress = withTry({}, lesson, 1, true, "with \"quotes\" and\nlines");
    progress = withTry(progress, lesson, 2, false, "2026-05-02");
    progress.lessons["other \xC3\xBC"]["a step"] = {true, true, 7, ""};
    const fs::path file = bench.folder() / "new folder" / "progress.toml";
    saveProgress(file, progress);
    const ReadProgress read = readProgress(file);
    EXPECT_EQ(read.told, "");
    EXPECT_EQ(read.progress, progress);
    saveProgress(file, {});
    EXPECT_EQ(readProgress(file).progress, Progress{});
    EXPECT_EQ(std::distance(fs::directory_iterator(file.parent_path()), {}), 1) << "nothing is left beside it";
}

TEST(Progress, NoFileYetIsNoFault) {
    const ReadProgress read = readProgress("/nowhere/progress.toml");
    EXPECT_EQ(read.told, "");
    EXPECT_TRUE(read.progress.lessons.empty());
}

const std::string kGood = "[[step]]\nlesson = \"a\"\nstep = \"b\"\nanswered = true\nright = true\ntries = 2\n";

class SpoiltProgress : public testing::TestWithParam<std::string> {};

TEST_P(SpoiltProgress, IsToldAndKept) {
    const LessonBench bench;
    bench.put("progress.toml", GetParam());
    const fs::path file = bench.folder() / "progress.toml";
    const ReadProgress read = readProgress(file);
    EXPECT_THAT(read.told, HasSubstr("progress.toml.spoilt"));
    saveProgress(file, read.progress);
    EXPECT_EQ(bench.contents("progress.toml.spoilt"), GetParam());
    EXPECT_EQ(readProgress(file).told, "") << "saved again it is whole";
    bench.put("progress.toml", "x");
    EXPECT_THAT(readProgress(file).told, HasSubstr("progress.toml.spoilt-2"));
    EXPECT_EQ(bench.contents("progress.toml.spoilt"), GetParam()) << "an older copy stays";
}

INSTANTIATE_TEST_SUITE_P(Files, SpoiltProgress,
                         testing::Values("", "[[step", std::string("\0\0\0\0", 4), "step = 3\n",
                                         kGood,  // without its format
                                         "format = \"firstoff-progress\"\n[[step]]\nlesson = 4\n",
                                         "format = \"firstoff-progress\"\n" + kGood + "[[step]]\nlesson = \"a\"\n",
                                         "format = \"firstoff-progress\"\nmore = 1\n" + kGood,
                                         "format = \"firstoff-progress\"\n[[step]]\nlesson = \"a\"\nstep = \"b\"\n"
                                         "answered = true\nright = true\ntries = -2\n"));

TEST(Progress, OfASpoiltFileWhatIsGoodIsTaken) {
    const LessonBench bench;
    bench.put("progress.toml", "format = \"firstoff-progress\"\n[[step]]\nlesson = 4\n" + kGood);
    const ReadProgress read = readProgress(bench.folder() / "progress.toml");
    EXPECT_EQ(read.progress.lessons.at("a").at("b"), (StepProgress{true, true, 2, ""}));
}

TEST(Progress, AFolderIsNoFile) {
    const LessonBench bench;
    EXPECT_THROW(readProgress(bench.folder()), std::runtime_error);
}

}  // namespace
}  // namespace firstoff
