// A program that calls another file: moves, findings and tables name lines of the file they stand in, and the window
// shows the line that called.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/output/json_report.h"
#include "sim/output/tables.h"
#include "sim/output/text_report.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::Not;

const char* const kMain =
    "O1\n"
    "G54 G99 G97 S1000 M03\n"
    "T0101\n"
    "G00 X60. Z5. M08\n"
    "M98 P2\n"
    "G00 X60. Z5.\n"
    "M30\n";
const char* const kCalled =
    "O2\n"
    "\n"
    "G01 X48. Z5. F.2\n"
    "Z-10.\n"
    "G00 X40. Z-20. (into the bar)\n"
    "M99\n";

std::shared_ptr<const Trial> trial() {
    auto setup = shop::barStock(50, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    Program program = readProgram(kMain, "main.nc");
    appendProgram(program, kCalled, "O2.nc", 2);
    return runTrial(std::move(program), std::move(setup));
}

const Finding* rapidIntoBar(const Trial& t) {
    for (const Finding& finding : t.findings) {
        if (finding.span.part == 1 && finding.severity == Severity::Stop) return &finding;
    }
    return nullptr;
}

TEST(CalledFile, FindingsNameTheFileAndItsLine) {
    const auto t = trial();
    const Finding* finding = rapidIntoBar(*t);
    ASSERT_NE(finding, nullptr) << shop::found(*t);
    EXPECT_EQ(finding->span.line, 5u);
    const std::string text = textReport(*t, "");
    EXPECT_THAT(text, HasSubstr("O2.nc, line 5"));
    EXPECT_THAT(text, HasSubstr("G00 X40. Z-20. (into the bar)"));
    EXPECT_THAT(jsonReport({t.get()}), HasSubstr("\"file\": \"O2.nc\""));
    for (const Finding& other : t->findings) EXPECT_LE(other.span.line, 7u) << other.code;
}

TEST(CalledFile, MovesNameTheirOwnLine) {
    const auto t = trial();
    const std::string table = movesTable(*t);
    EXPECT_THAT(table, HasSubstr("\n3,,0,1,feed,"));
    EXPECT_THAT(table, HasSubstr("\n4,,0,1,feed,"));
    EXPECT_THAT(table, Not(HasSubstr("\n11,")));
}

TEST(CalledFile, ShowsAsTheLineThatCalled) {
    const auto t = trial();
    std::size_t called = 0;
    for (const Step& step : t->toolpath.steps) {
        const bool own = t->program.isOwn(step.block);
        EXPECT_EQ(step.shown, own ? step.block : BlockId{4}) << step.block;
        called += own ? 0 : 1;
    }
    EXPECT_EQ(called, 5u);
    for (std::size_t i = 0; i < t->timeline.moves.size(); ++i) {
        const double middle = (t->timeline.moves[i].t0 + t->timeline.moves[i].t1) / 2;
        EXPECT_LT(t->blockAt(middle), 7u);
    }
    EXPECT_EQ(t->shownBlock(3), 4u);
}

// What is in the file beside is also called by a program of the same tape, and back into the program's own file.
TEST(CalledFile, MayCallBack) {
    auto setup = shop::barStock(50, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    Program program = readProgram("O1\nT0101\nM98 P2\nG00 X70.\nM30\nO3\nG00 X65.\nM99\n", "main.nc");
    appendProgram(program, "G00 X60.\nM98 P3\nG00 X61.\nM99\n", "2.txt", 2);
    const Toolpath path = interpret(program, setup);
    std::vector<BlockId> shown;
    for (const Step& step : path.steps) shown.push_back(step.shown);
    EXPECT_THAT(shown, testing::ElementsAre(0, 1, 2, 2, 2, 5, 6, 7, 2, 2, 3, 4));
}

}  // namespace
}  // namespace firstoff
