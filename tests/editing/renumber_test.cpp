#include "sim/editing/renumber.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

Renumbered renumbered(const std::string& text, const Renumbering& wish = {}) {
    return renumber(readProgram(text, "test"), CodeSystem::A, wish);
}

std::string after(const std::string& text, const Renumbering& wish = {}) {
    const Renumbered result = renumbered(text, wish);
    for (const auto& refusal : result.refusals) ADD_FAILURE() << refusal.text;
    return changedText(text, result.changes);
}

TEST(Renumber, NumbersBlocksWithWords) {
    EXPECT_EQ(after("%\nO1 (JOB)\nG21\n\n(REMARK)\n/G00 X1\n#1=2\nN7M30\n%\n"),
              "%\nO1 (JOB)\nN10 G21\n\n(REMARK)\n/N20 G00 X1\nN30 #1=2\nN40M30\n%\n");
    EXPECT_EQ(after("N1G21\nG00\nN2 M30\n", {100, 5, false}), "N100G21\nG00\nN105 M30\n");
    EXPECT_EQ(after("G21\r\nM30\r\n", {0, 1, true}), "N0 G21\r\nN1 M30\r\n");
}

TEST(Renumber, TakesAlongWhatNamesANumber) {
    EXPECT_EQ(after("G71 U2. R1.\nG71 P1 Q2 U.4 F.3\nN1 G00 X10.\nN2 G01 Z-9.\nG70 P1 Q2\nM30\n"),
              "N10 G71 U2. R1.\nN20 G71 P30 Q40 U.4 F.3\nN30 G00 X10.\nN40 G01 Z-9.\nN50 G70 P30 Q40\nN60 M30\n");
    EXPECT_EQ(after("#1=1\nN5 #1=#1+1\nIF [#1 LT 3] GOTO 5\nGOTO9\nN9M30\n", {1, 1, true}),
              "N1 #1=1\nN2 #1=#1+1\nN3 IF [#1 LT 3] GOTO 2\nN4 GOTO5\nN5M30\n");
    // P of a dwell, a thread or a call is no number of a block.
    EXPECT_EQ(after("N1 G04 P1\nM98 P1\nN2 M30\nO1\nN1 G76 P1 Q1 R1\nM99\n", {10, 10, false}),
              "N10 G04 P1\nM98 P1\nN20 M30\nO1\nN10 G76 P1 Q1 R1\nM99\n");
}

TEST(Renumber, LooksUpNumbersWithinTheirProgram) {
    EXPECT_EQ(after("O1\nN1 M98 P2\nGOTO 1\nM30\nO2\nN1 GOTO 3\nN3 M99\n", {10, 10, false}),
              "O1\nN10 M98 P2\nGOTO 10\nM30\nO2\nN10 GOTO 20\nN20 M99\n");
    // M99 P goes back to a block of the caller.
    EXPECT_EQ(after("O1\nM98 P2\nN5 G04 P1\nN7 M30\nO2\nN5 M99 P7\n", {10, 10, false}),
              "O1\nM98 P2\nN10 G04 P1\nN20 M30\nO2\nN10 M99 P20\n");
    EXPECT_EQ(after("N5 G21\n/M30\nM99 P5\n", {10, 10, false}), "N10 G21\n/M30\nM99 P10\n");
}

TEST(Renumber, CountsWhatFollowed) {
    const Renumbered result = renumbered("N1 G21\nGOTO 2\nN2 M30\n");
    EXPECT_EQ(result.blocks, 3u);
    EXPECT_EQ(result.followers, 1u);
}

TEST(Renumber, RefusesWhatIsNotCertain) {
    struct Row {
        const char* text;
        const char* line;
        const char* why;
    };
    const Row rows[] = {
        {"#1=10\nGOTO #1\nN10 M30\n", "Line 2:", "calculates"},
        {"#1=10\nGOTO [#1+10]\nN10 M30\n", "Line 2:", "calculates"},
        {"N10 G21\nN10 G40\nGOTO 10\n", "Line 3:", "stands 2 times"},
        {"G70 P1 Q2\nN1 G00 X1.\nM30\n", "Line 1:", "not in this program"},
        {"G70 P#1 Q2\nN2 G00 X1.\nM30\n", "Line 1:", "calculated"},
        {"G70 P2\nN2 G00 X1.\nM30\n", "Line 1:", "one end"},
        {"N1 G21\nN2.5 G40\nM30\n", "Line 2:", "no whole number"},
        {"N1 G21 N2\nM30\n", "Line 1:", "two N words"},
        {"M97 P10\nN10 M30\n", "Line 1:", "is not known here"},
        {"M98 P1 Q10\nN10 M30\nO1\nM99\n", "Line 1:", "Q or H"},
        {"N10 #1=#4114\nM30\n", "Line 1", "#4114"},
        {"N10 G00\nM99 P10\n", "Line 2:", "calling program"},  // perhaps called from another file
        {"O1\nM98 P3\nN5 M98 P2\nM30\nO2\nN5 M98 P3\nM99\nO3\nM99 P5\n", "Line 9:", "several calling programs"},
    };
    for (const Row& row : rows) {
        const Renumbered result = renumbered(row.text);
        ASSERT_FALSE(result.refusals.empty()) << row.text;
        EXPECT_THAT(result.refusals.front().text, HasSubstr(row.line)) << row.text;
        EXPECT_THAT(result.refusals.front().text, HasSubstr(row.why)) << row.text;
        EXPECT_THAT(result.changes, IsEmpty()) << row.text;
    }
}

TEST(Renumber, KeepsToFiveFigures) {
    EXPECT_EQ(after("G21\nM30\n", {99998, 1, true}), "N99998 G21\nN99999 M30\n");
    const Renumbered result = renumbered("G21\nG40\nM30\n", {99998, 1, true});
    ASSERT_EQ(result.refusals.size(), 1u);
    EXPECT_THAT(result.refusals.front().text, HasSubstr("N100000"));
}

TEST(Renumber, SaysWhichCallsItCannotSeeInto) {
    const Renumbered result = renumbered("N1 M98 P77\nM30\n");
    EXPECT_THAT(result.refusals, IsEmpty());
    ASSERT_EQ(result.cautions.size(), 1u);
    EXPECT_THAT(result.cautions.front().text, HasSubstr("program 77"));
}

TEST(Renumber, RefusesWhereAnotherFileGoesBackToANumber) {
    Program program = readProgram("N1 M98 P77\nN2 M30\n", "main.nc");
    appendProgram(program, "O77\nM99 P2\n", "O77.nc", 77);
    const Renumbered result = renumber(program, CodeSystem::A, {});
    ASSERT_EQ(result.refusals.size(), 1u);
    EXPECT_THAT(result.refusals.front().text, HasSubstr("O77.nc"));
}

}  // namespace
}  // namespace firstoff
