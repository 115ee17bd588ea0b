#include "sim/program/program.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <rapidcheck.h>
#include <algorithm>
#include <ostream>
#include <string>

namespace firstoff {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Program read(std::string text) {
    return readProgram(std::move(text), "test");
}

// The words of one block as `X20 Z-15 ,C2`, values as read; `?` for a missing value, `=` before an expression.
std::string wordsOf(const Program& program, std::size_t block = 0) {
    std::string result;
    const Block& b = program.blocks.at(block);
    for (const Word* word = program.begin(b); word != program.end(b); ++word) {
        if (!result.empty()) result += ' ';
        if (word->comma) result += ',';
        result += word->letter;
        if (word->form == Word::Form::Missing) result += '?';
        if (word->form == Word::Form::Expression) result += '=';
        if (word->form != Word::Form::Number) continue;
        std::string value = std::to_string(word->value);
        value.erase(value.find_last_not_of('0') + 1);
        if (value.back() == '.') value.pop_back();
        result += value;
    }
    return result;
}

struct BlockRow {
    const char* text;
    const char* words;
};
void PrintTo(const BlockRow& row, std::ostream* os) {
    *os << row.text;
}

class BlockText : public testing::TestWithParam<BlockRow> {};

TEST_P(BlockText, GivesItsWordsAndNoFinding) {
    const Program program = read(GetParam().text);
    EXPECT_THAT(program.findings, IsEmpty()) << program.findings.front().message;
    EXPECT_EQ(wordsOf(program), GetParam().words);
}

INSTANTIATE_TEST_SUITE_P(
    Forms, BlockText,
    testing::Values(BlockRow{"G01 X20. Z-5 F.2", "G1 X20 Z-5 F0.2"}, BlockRow{"G01X20.Z-5F.2", "G1 X20 Z-5 F0.2"},
                    BlockRow{"g01x20.z-5f.2", "G1 X20 Z-5 F0.2"}, BlockRow{"G 1 X 20. Z - 5 F . 2", "G1 X20 Z-5 F0.2"},
                    // NISTIR 6556 sec. 3.3, row TC002.
                    BlockRow{"g0x +0. 12 34y 7", "G0 X0.1234 Y7"}, BlockRow{"g0 x+0.1234 y7", "G0 X0.1234 Y7"},
                    BlockRow{"N10G0X0", "N10 G0 X0"}, BlockRow{"/N10 G0", "N10 G0"}, BlockRow{"N10 /2 G0", "N10 G0"},
                    BlockRow{"G1(away) X2(and) Z3;and more G5", "G1 X2 Z3"}, BlockRow{"O0012 (PIN)", "O12"},
                    BlockRow{":12", "O12"}, BlockRow{"G1 X20 ,C2", "G1 X20 ,C2"},
                    BlockRow{"G1 X20,R1.5", "G1 X20 ,R1.5"}, BlockRow{"X20 , r.5", "X20 ,R0.5"},
                    BlockRow{"X#1 Z-[#2+1]", "X= Z="}, BlockRow{"X-#100Z##2F[1+2]", "X= Z= F="},
                    BlockRow{"X SIN[30] Z5", "X= Z5"}, BlockRow{"Z ATAN[1]/[1] X2", "Z= X2"},
                    BlockRow{"T0101 M06", "T101 M6"}, BlockRow{"G54.1 P2", "G54.1 P2"},
                    BlockRow{"G0 X1\x1a", "G0 X1"}));

TEST(ReadProgram, KeepsOneBlockPerLineWhateverTheLineEnd) {
    for (const char* text : {"G0\n\nX1\n", "G0\r\n\r\nX1\r\n", "G0\r\rX1\r", "G0\n\nX1"}) {
        const Program program = read(text);
        ASSERT_EQ(program.blocks.size(), 3u) << text;
        EXPECT_EQ(wordsOf(program, 0), "G0");
        EXPECT_EQ(wordsOf(program, 1), "");
        EXPECT_EQ(wordsOf(program, 2), "X1");
    }
}

TEST(ReadProgram, KnowsTheFrameOfATape) {
    const Program program = read("%\nO0100(PIN)\nN10G21\n/3N20M30\n%\n");
    ASSERT_EQ(program.blocks.size(), 5u);
    EXPECT_EQ(program.blocks[0].kind, Block::Kind::Percent);
    EXPECT_EQ(program.blocks[1].programNumber, 100);
    EXPECT_EQ(program.blocks[2].sequenceNumber, 10);
    EXPECT_EQ(program.blocks[2].skip, 0);
    EXPECT_EQ(program.blocks[3].sequenceNumber, 20);
    EXPECT_EQ(program.blocks[3].skip, 3);
    EXPECT_EQ(program.blocks[4].kind, Block::Kind::Percent);
    EXPECT_EQ(program.blocks[4].sequenceNumber, -1);
    EXPECT_THAT(program.findings, IsEmpty());
}

TEST(ReadProgram, OnlyNotesWhatIsWrongBehindTheClosingPercent) {
    const auto gravest = [](const char* text) {
        Severity severity = Severity::Note;
        for (const Finding& finding : read(text).findings) severity = std::max(severity, finding.severity);
        return severity;
    };
    EXPECT_EQ(gravest("%\nO1\nG21\nM30\n%\nsee you @ eight\n"), Severity::Note);
    EXPECT_EQ(gravest("%\nO1\nG21 @\nM30\n%\n"), Severity::Stop);
    EXPECT_EQ(gravest("%\n%\nO1\nG21 @\nM30\n%\n"), Severity::Stop) << "a frame of two lines";
}

TEST(ReadProgram, KeepsTheByteOrderMarkOutOfTheFirstBlock) {
    const Program program = read("\xEF\xBB\xBFG0 X1\nG5!\n");
    EXPECT_EQ(program.text.size(), 13u);
    EXPECT_EQ(wordsOf(program), "G0 X1");
    EXPECT_EQ(program.span(0, *program.begin(program.blocks[0])).column, 1u) << "columns as an editor shows them";
}

TEST(ReadProgram, KnowsMacroStatements) {
    for (const char* text : {"#1=20.", "N10 #1=[2+3]", "IF[#1EQ2]GOTO10", "WHILE[#1LT5]DO1", "DO 2", "END1", "GOTO 100",
                             "if [#1 gt 2] then #2=3"}) {
        const Program program = read(text);
        EXPECT_EQ(program.blocks.at(0).kind, Block::Kind::Statement) << text;
        EXPECT_THAT(program.findings, IsEmpty()) << text;
    }
    EXPECT_EQ(read("I1 F2").blocks[0].kind, Block::Kind::Words);
}

TEST(ReadProgram, GivesLineAndColumnOfWords) {
    const Program program = read("G0\nG1 X20 ,C2\n");
    const Block& block = program.blocks[1];
    EXPECT_EQ(program.span(1, program.begin(block)[1]), (SourceSpan{SourceSpan::File::Program, 2, 4, 3}));
    EXPECT_EQ(program.span(1, program.begin(block)[2]), (SourceSpan{SourceSpan::File::Program, 2, 8, 3}));
    EXPECT_EQ(program.span(1), (SourceSpan{SourceSpan::File::Program, 2, 1, 10}));
}

struct FaultRow {
    const char* text;
    const char* code;
    std::uint32_t line, column;
    const char* words;  // of that line, what could be read all the same
};
void PrintTo(const FaultRow& row, std::ostream* os) {
    *os << row.text;
}

class Faulty : public testing::TestWithParam<FaultRow> {};

TEST_P(Faulty, IsReportedOnceAtItsPlaceAndReadOn) {
    const FaultRow& row = GetParam();
    const Program program = read(row.text);
    ASSERT_EQ(program.findings.size(), 1u);
    const Finding& finding = program.findings[0];
    EXPECT_EQ(finding.code, row.code);
    EXPECT_EQ(finding.span.line, row.line);
    EXPECT_EQ(finding.span.column, row.column);
    EXPECT_FALSE(finding.message.empty());
    EXPECT_FALSE(finding.remedy.empty());
    EXPECT_EQ(wordsOf(program, row.line - 1), row.words);
}

INSTANTIATE_TEST_SUITE_P(
    Lines, Faulty,
    testing::Values(FaultRow{"G0 X20\nG1 Z-5 ?\n", "bad-character", 2, 8, "G1 Z-5"},
                    FaultRow{"X\xE2\x88\x92 5", "bad-character", 1, 2, "X?"},  // U+2212, a minus out of a document
                    FaultRow{"X\xC2\xA0"
                             "5",
                             "bad-character", 1, 2, "X?"},  // hard blank
                    FaultRow{"G1 X=5", "letter-without-number", 1, 4, "G1 X?"},
                    FaultRow{"G1 X20,5 Z3", "decimal-comma", 1, 7, "G1 X20 Z3"},
                    FaultRow{"G1 X2O. Z3", "letter-without-number", 1, 6, "G1 X2 O? Z3"},
                    FaultRow{"G1 X Z-5", "letter-without-number", 1, 4, "G1 X? Z-5"},
                    FaultRow{"G1 X--5", "letter-without-number", 1, 4, "G1 X?"},
                    FaultRow{"X. Z1", "letter-without-number", 1, 1, "X? Z1"},
                    FaultRow{"G1 X1.2.3 Z4", "second-decimal-point", 1, 8, "G1 X1.2 Z4"},
                    FaultRow{"G1 X5-3", "number-without-letter", 1, 6, "G1 X5"},
                    FaultRow{"5 G1", "number-without-letter", 1, 1, "G1"},
                    FaultRow{"G1 X5 (away\nG0", "unclosed-comment", 1, 7, "G1 X5"},
                    FaultRow{"G1 (a (b) X1", "nested-comment", 1, 7, "G1 X1"},  // NISTIR 6556 sec. 3.3.4, row TC010
                    FaultRow{"G1 ) X1", "unopened-comment", 1, 4, "G1 X1"},
                    FaultRow{"X[#1+2 Z5", "unclosed-bracket", 1, 2, "X="},
                    FaultRow{"G0 X1\n#1=[2", "unclosed-bracket", 2, 4, ""},
                    FaultRow{"G1 X5 / Z3", "skip-inside-block", 1, 7, "G1 X5 Z3"},
                    FaultRow{"N000009 G0", "long-sequence-number", 1, 1, "N9 G0"},  // sec. 3.3.1, row TC004
                    FaultRow{"N1.5 G0", "bad-sequence-number", 1, 1, "N1.5 G0"},
                    FaultRow{"G1 X]", "letter-without-number", 1, 4, "G1 X?"}));

TEST(ReadProgram, ReportsOneFindingPerLine) {
    const Program program = read("G1 X Z ? 5 )\nX..\n");
    ASSERT_EQ(program.findings.size(), 2u);
    EXPECT_EQ(program.findings[0].span.column, 4u);
    EXPECT_EQ(program.findings[1].span.line, 2u);
}

TEST(ReadProgram, RefusesWhatIsNoText) {
    const Program nul = read(std::string("G0 X1\nG1\0X2", 11));
    EXPECT_THAT(nul.blocks, IsEmpty());
    ASSERT_EQ(nul.findings.size(), 1u);
    EXPECT_EQ(nul.findings[0].code, "not-a-text-file");
    EXPECT_EQ(nul.findings[0].severity, Severity::Stop);
    EXPECT_EQ(nul.findings[0].span.line, 2u);

    std::string junk;
    for (int i = 1; i < 200; ++i) junk += static_cast<char>(i * 37 % 255 + 1);
    const Program binary = read(junk);
    EXPECT_THAT(binary.blocks, IsEmpty());
    ASSERT_EQ(binary.findings.size(), 1u);
    EXPECT_EQ(binary.findings[0].code, "not-a-text-file");
}

TEST(ReadProgram, SaysWhenThereIsNothingToRun) {
    for (const char* text : {"", "\xEF\xBB\xBF", "\n\n", "   ", "(only talk)\n;and more\n", "%\n%\n"}) {
        const Program program = read(text);
        ASSERT_EQ(program.findings.size(), 1u) << '"' << text << '"';
        EXPECT_EQ(program.findings[0].code, "empty-program");
        EXPECT_EQ(program.findings[0].severity, Severity::Stop);
    }
}

TEST(ReadProgram, StopsListingFaultsAfterAHundredLines) {
    std::string text;
    for (int i = 0; i < 500; ++i) text += "G1 ?\n";
    const Program program = read(text);
    EXPECT_EQ(program.blocks.size(), 500u);
    ASSERT_EQ(program.findings.size(), 101u);
    EXPECT_EQ(program.findings.back().code, "too-many-faults");
}

TEST(ReadProgram, CutsOffALineThatIsNoBlock) {
    std::string text;
    for (int i = 0; i < 70000; ++i) text += "X1";
    const Program words = read(text + "\nG0\n");
    ASSERT_EQ(words.findings.size(), 1u);
    EXPECT_EQ(words.findings[0].code, "line-too-long");
    EXPECT_EQ(wordsOf(words, 1), "G0");
    const Program digits = read("X" + std::string(70000, '1') + "\nG0\n");
    ASSERT_EQ(digits.findings.size(), 1u);
    EXPECT_EQ(digits.findings[0].code, "line-too-long");
    EXPECT_EQ(wordsOf(digits, 1), "G0");
}

// Text made of pieces that matter to the reader, so that odd meetings of them are common.
rc::Gen<std::string> programText() {
    const auto piece = rc::gen::elementOf(std::vector<std::string>{
        "G01",   "X20.", "Z-5", "F.2",   "N10", "O1",       ":3",           "%",         "/", "/2",  "(", ")",
        "(a b)", ";",    " ",   "\t",    "\n",  "\r\n",     "\r",           ",C2",       ",", "#1",  "[", "]",
        "X",     "-",    ".",   "1.2.3", "?",   "\xC3\xA4", "\xE2\x88\x92", "IF[#1EQ2]", "=", "SIN["});
    return rc::gen::map(rc::gen::container<std::vector<std::string>>(piece),
                        [](const std::vector<std::string>& pieces) {
                            std::string text;
                            for (const std::string& p : pieces) text += p;
                            return text;
                        });
}

// Marks which part of the text each byte belongs to; fails where two parts overlap or leave the text.
bool cover(std::vector<char>& owner, std::size_t from, std::size_t length, char mark) {
    if (from + length > owner.size()) return false;
    for (std::size_t i = from; i < from + length; ++i) {
        if (owner[i] != 0) return false;
        owner[i] = mark;
    }
    return true;
}

TEST(ReadProgram, LosesNoByteOfAnyText) {
    EXPECT_TRUE(rc::check("words, comments and separators make up the text", [] {
        const std::string text = *programText();
        const Program program = read(text);
        RC_ASSERT(program.text == text);
        std::vector<char> owner(text.size(), 0);
        for (const Word& word : program.words) RC_ASSERT(cover(owner, word.offset, word.length, 'w'));
        for (const Comment& comment : program.comments) RC_ASSERT(cover(owner, comment.offset, comment.length, 'c'));
        for (std::size_t i = 0; i < program.blocks.size(); ++i) {
            const Block& block = program.blocks[i];
            const bool kept = block.kind != Block::Kind::Words;
            bool faulty = false;
            for (const Finding& finding : program.findings) faulty |= finding.span.line == i + 1;
            if (kept || faulty) continue;
            // What belongs to no word and no comment may only be a blank or the skip mark.
            for (std::size_t at = block.offset; at < block.offset + block.length; ++at) {
                const char c = text[at];
                RC_ASSERT(owner[at] != 0 || c == ' ' || c == '\t' || (block.skip && (c == '/' || c == '2')));
            }
        }
    }));
}

TEST(ReadProgram, GivesTheBlocksBackLineByLine) {
    EXPECT_TRUE(rc::check("blocks follow each other, only line ends between them", [] {
        const std::string text = *programText();
        const Program program = read(text);
        std::string restored;
        std::size_t at = 0;
        for (const Block& block : program.blocks) {
            const std::string between = text.substr(at, block.offset - at);
            RC_ASSERT(between.find_first_not_of("\r\n") == std::string::npos);
            restored += between + std::string(program.textOf(block));
            at = block.offset + block.length;
        }
        restored += text.substr(at);
        RC_ASSERT(restored == text);
    }));
}

// A word is read the same however much blank stands in and around it and whatever its case: NISTIR 6556 sec. 3.3.
TEST(ReadProgram, ReadsRespacedTwinsAlike) {
    EXPECT_TRUE(rc::check("blanks and case mean nothing", [] {
        const std::string plain = "N10G01X-20.5Z+.25F12,C.5M03";
        std::string spaced;
        for (char c : plain) {
            for (int i = *rc::gen::inRange(0, 3); i > 0; --i) spaced += *rc::gen::elementOf(std::string(" \t"));
            spaced += *rc::gen::arbitrary<bool>() ? c : static_cast<char>(std::tolower(c));
        }
        const Program program = read(spaced);
        RC_ASSERT(program.findings.empty());
        RC_ASSERT(wordsOf(program) == wordsOf(read(plain)));
    }));
}

}  // namespace
}  // namespace firstoff
