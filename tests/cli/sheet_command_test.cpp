// `firstoff sheet` and the table of `firstoff export` as a shell sees them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "tests/cli/command_run.h"

namespace firstoff {
namespace {

using shop::Bench;
using shop::CommandRun;
using testing::HasSubstr;
using testing::StartsWith;

const std::string kJobs = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/";

class SheetCommand : public testing::TestWithParam<const char*> {};

TEST_P(SheetCommand, WritesBothFormsTheSameEachTime) {
    const Bench bench;
    const std::string words = "sheet " + kJobs + "bored-bush.nc --kind " + GetParam() + " --date '1 May' --out ";
    for (const char* name : {"a.html", "b.HTML", "a.pdf", "b.pdf"}) {
        const CommandRun run = shop::firstoff(words + bench.path(name));
        EXPECT_EQ(run.exitCode, 0) << run.err;
        EXPECT_EQ(run.err, "");
    }
    EXPECT_THAT(bench.contents("a.html"), StartsWith("<!DOCTYPE html>"));
    EXPECT_THAT(bench.contents("a.html"), HasSubstr("1 May"));
    EXPECT_THAT(bench.contents("a.pdf"), StartsWith("%PDF-"));
    EXPECT_EQ(bench.contents("a.html"), bench.contents("b.HTML"));
    EXPECT_EQ(bench.contents("a.pdf"), bench.contents("b.pdf"));
}

INSTANTIATE_TEST_SUITE_P(Kinds, SheetCommand, testing::Values("setup", "inspection", "time", "findings", "handout"),
                         [](const auto& row) { return std::string(row.param); });

TEST(SheetCommandOfTheTrap, WritesItsSheetAndSaysThatThereAreProblems) {
    const Bench bench;
    const CommandRun run = shop::firstoff("sheet " + kJobs + "trap.nc --kind findings --out " + bench.path("f.html"));
    EXPECT_EQ(run.exitCode, 1);
    EXPECT_THAT(run.err, HasSubstr("the verdict is problems"));
    EXPECT_THAT(bench.contents("f.html"), HasSubstr("PROBLEMS"));
}

TEST(SheetCommandOfHandouts, HasAnswersOnlyWhereTheyAreAskedFor) {
    const Bench bench;
    const std::string words = "sheet " + kJobs + "coupling-spigot.nc --kind handout --out ";
    EXPECT_EQ(shop::firstoff(words + bench.path("without.html")).exitCode, 0);
    EXPECT_EQ(shop::firstoff(words + bench.path("with.html") + " --answers").exitCode, 0);
    EXPECT_THAT(bench.contents("without.html"), testing::Not(HasSubstr("Answers")));
    EXPECT_THAT(bench.contents("with.html"), HasSubstr("<h2>Answers</h2>"));
    const CommandRun trap = shop::firstoff("sheet " + kJobs + "trap.nc --kind handout --out " + bench.path("t.pdf"));
    EXPECT_EQ(trap.exitCode, 1);
    EXPECT_THAT(bench.contents("t.pdf"), StartsWith("%PDF-"));
    EXPECT_EQ(shop::firstoff("sheet nothing.nc --kind handout --out " + bench.path("n.pdf")).exitCode, 2);
    EXPECT_FALSE(bench.has("n.pdf"));
}

TEST(ExportCommand, WritesTheSectionAsATable) {
    const Bench bench;
    const std::string job = kJobs + "bored-bush.nc";
    EXPECT_EQ(shop::firstoff("export " + job + " --out " + bench.path("part.csv")).exitCode, 0);
    EXPECT_EQ(shop::firstoff("section " + job + " --out " + bench.path("section.csv")).exitCode, 0);
    EXPECT_EQ(bench.contents("part.csv"), bench.contents("section.csv"));
    EXPECT_EQ(shop::firstoff("export " + job + " --piece 1 --out " + bench.path("piece.csv")).exitCode, 0);
    const std::string piece = bench.contents("piece.csv");
    EXPECT_THAT(piece, StartsWith("piece,loop,z_mm,r_mm\n1,0,"));
    EXPECT_EQ(piece.find("\n0,"), std::string::npos);
}

}  // namespace
}  // namespace firstoff
