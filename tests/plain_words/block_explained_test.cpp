// What a block says, word by word. Figures by hand: n = 1000 v / (pi d), common practice.
#include "sim/plain_words/block_explained.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/plain_words/program_explained.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

constexpr const char* kProgram =
    "O0007 (CAP)\n"                   // 1
    "G21 G40 G99\n"                   // 2
    "G50 S3000\n"                     // 3
    "T0101\n"                         // 4
    "G96 S220 M03\n"                  // 5
    "G00 X62. Z2. M08\n"              // 6
    "G71 U2.5 R0.5\n"                 // 7
    "G71 P100 Q110 U0.6 W0.1 F0.3\n"  // 8
    "N100 G00 X20.\n"                 // 9
    "G01 Z-20. F0.15\n"               // 10
    "X48.\n"                          // 11
    "N110 X62.\n"                     // 12
    "G70 P100 Q110\n"                 // 13
    "G97 S600\n"                      // 14
    "G00 X48. Z-10.\n"                // 15
    "G04 P500\n"                      // 16
    "G01 X-0.8\n"                     // 17
    "W-3.\n"                          // 18
    "M77\n"                           // 19
    "G28 U0 W0\n"                     // 20
    "M30\n";                          // 21

const Trial& trial() {
    static const auto made = [] {
        auto setup = shop::barStock(60, 80);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        setup.offsets = {{1, std::nullopt, {0, -0.006}, std::nullopt, std::nullopt}};
        return runTrial(readProgram(kProgram, "cap.nc"), std::move(setup));
    }();
    return *made;
}

std::string said(std::uint32_t line, const std::string& word) {
    for (const WordExplained& w : explainBlock(trial(), line - 1)) {
        if (w.word == word) return w.text;
    }
    return "no such word";
}

struct Row {
    std::uint32_t line;
    const char* word;
    const char* says;
};

TEST(BlockExplained, SaysWhatEachWordComesTo) {
    const Row kRows[] = {
        {1, "O0007", "keeps this program"},
        {2, "G21", "Lengths in millimetres."},
        {2, "G99", "F per revolution."},
        {3, "S3000", "no faster than 3,000 rev/min"},
        {4, "T0101", "Offset 1 says where its tip is; its wear is X-0.012 Z+0.000."},
        {5, "G96", "S is a surface speed."},
        {5, "S220", "Surface speed: 220 m/min past the edge"},
        {5, "M03", "Spindle forward."},
        {6, "Z2.", "To 2 mm in front of Z0"},
        {7, "U2.5", "Depth of cut of each pass, on radius: 2.5 mm."},
        {7, "R0.5", "How far the tool comes off after each pass: 0.5 mm."},
        {8, "U0.6", "Left on for finishing, on the diameter; below zero in bores: 0.6 mm, so 0.3 a side."},
        {8, "W0.1", "Left on for finishing, along Z: 0.1 mm."},
        {8, "P100", "The profile begins at the block with this N number."},
        {9, "N100", "cycles, jumps and the search"},
        {13, "Q110", "The profile ends with the block with this N number."},
        {14, "S600", "Spindle speed: 600 rev/min"},
        {16, "P500", "Time that it waits: 0.5 s."},
        {17, "X-0.8", "To the diameter 0.8 mm: 0.4 from the axis, beyond it, 23.6 nearer than the tip stood."},
        {18, "W-3.", "3 mm along Z from where it stands, towards the chuck."},
        {19, "M77", "of this machine's own"},
        {20, "U0", "By way of where the tip stands in this axis."},
        {21, "M30", "End of the program"},
    };
    for (const Row& row : kRows) EXPECT_THAT(said(row.line, row.word), HasSubstr(row.says)) << row.line << row.word;
}

// 220 m/min: at the diameter 48 1000 * 220 / (pi * 48) = 1458.9; 3000 rev/min are reached at 23.34.
TEST(BlockExplained, SaysWhatSurfaceSpeedComesToAndWhereTheClampHolds) {
    const auto setup = [] {
        auto s = shop::barStock(60, 80);
        s.machine.maxRevPerMin = 4000;
        shop::addTurningTool(s, 1, 'C', 0.8);
        return s;
    }();
    const auto made = runTrial(
        readProgram("G21 G40 G99\nG50 S3000\nT0101\nG96 S220 M03\nG00 X62. Z2.\nG01 X48. F0.2\nX20.\nM30\n", "s"),
        setup);
    const auto at48 = explainBlock(*made, 5), at20 = explainBlock(*made, 6);
    ASSERT_EQ(at48.size(), 3u);
    EXPECT_THAT(at48[1].text, HasSubstr("At this diameter the 220 m/min are 1,459 rev/min; from X23.3 down the clamp "
                                        "holds it at 3,000."));
    EXPECT_EQ(at48[2].text, "Feed: 0.2 mm for each revolution; at 1,459 rev/min that is 292 mm in a minute.");
    ASSERT_EQ(at20.size(), 1u);
    EXPECT_THAT(at20[0].text, HasSubstr("The 220 m/min would be 3,501 rev/min here; the clamp holds it at 3,000."));
}

TEST(BlockExplained, TellsTheProgrammedPlaceAndWhereCompensationPutsTheTip) {
    auto setup = shop::barStock(60, 80);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const auto made = runTrial(readProgram("G21 G99 G97 S500 M03\nT0101\nG00 X64. Z2.\nG42 X40.\nG01 Z-10. F0.2\nX50. "
                                           "Z-20.\nG40 X64.\nM30\n",
                                           "s"),
                               setup);
    const auto words = explainBlock(*made, 4);
    ASSERT_EQ(words.size(), 3u);
    EXPECT_THAT(words[1].text, testing::StartsWith("To 10 mm behind Z0: "));
    // A cone of 26.565 degrees follows: the centre of the nose stops r tan(a/2) = 0.189 before the corner, the
    // imaginary tip stands r = 0.8 behind it.
    EXPECT_THAT(words[1].text, HasSubstr("puts the tip at Z-10.611"));
}

TEST(BlockExplained, KnowsNoFiguresOfABlockThatIsNeverCarriedOut) {
    const auto made = runTrial(readProgram("G21\nM30\nG01 X20. F0.2\n", "s"), shop::barStock(60, 80));
    const auto words = explainBlock(*made, 2);
    ASSERT_EQ(words.size(), 3u);
    EXPECT_EQ(words[0].text, "Straight line at feed.");
    EXPECT_EQ(words[1].text, "To this diameter: X counts across the axis.");
    EXPECT_EQ(words[2].text, "The feed.");
}

TEST(BlockExplained, SaysThatACodeIsNotKnown) {
    const auto made = runTrial(readProgram("G21\nG123 X20.\nM30\n", "s"), shop::barStock(60, 80));
    EXPECT_THAT(explainBlock(*made, 1).at(0).text, HasSubstr("not proven"));
}

TEST(BlockExplained, TellsWhatTheSetUpSaysOfAnMCode) {
    auto setup = shop::barStock(60, 80);
    MachineCode code;
    code.number = 63;
    code.meaning = "catcher forward";
    setup.machineCodes = {code};
    const auto made = runTrial(readProgram("M63\nM30\n", "s"), setup);
    EXPECT_EQ(explainBlock(*made, 0).at(0).text, "An M code of this machine's own; the set-up says: catcher forward.");
}

TEST(BlockExplained, HasAWordForEveryWordOfTheProgram) {
    for (BlockId block = 0; block < trial().program.blocks.size(); ++block) {
        const auto words = explainBlock(trial(), block);
        EXPECT_EQ(words.size(), trial().program.blocks[block].wordCount);
        for (const WordExplained& word : words) {
            EXPECT_FALSE(word.text.empty());
            EXPECT_EQ(word.text.back(), '.') << word.text;
        }
    }
    EXPECT_TRUE(explainBlock(trial(), 9999).empty());
}

TEST(ProgramExplained, HasALineForEveryBlock) {
    const std::string text = programExplained(trial());
    EXPECT_THAT(text, HasSubstr("   7  G71 U2.5 R0.5\n"));
    EXPECT_THAT(programExplained(trial(), 7),
                testing::StartsWith("   7  G71 U2.5 R0.5\n      G71     Roughing along Z"));
    EXPECT_EQ(programExplained(trial(), 99), "");
}

}  // namespace
}  // namespace firstoff
