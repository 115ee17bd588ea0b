#include "sim/training/lesson_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace firstoff {
namespace {

using Kind = TextBlock::Kind;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

LessonText blocks(const std::string& markdown) {
    const ReadLessonText read = readLessonText(markdown);
    EXPECT_THAT(read.faults, IsEmpty()) << markdown;
    return read.blocks;
}

TEST(LessonText, HasARunForEachManner) {
    const LessonText text = blocks("plain *leaning* **strong** ***both*** `G01 X20.`");
    ASSERT_THAT(text, SizeIs(1));
    EXPECT_THAT(text[0].runs,
                ElementsAre(TextRun{"plain ", false, false, false}, TextRun{"leaning", false, true, false},
                            TextRun{" ", false, false, false}, TextRun{"strong", true, false, false},
                            TextRun{" ", false, false, false}, TextRun{"both", true, true, false},
                            TextRun{" ", false, false, false}, TextRun{"G01 X20.", false, false, true}));
}

struct OneBlock {
    const char* markdown;
    Kind kind;
    int level, number;
    const char* text;
};

class LessonTextBlock : public testing::TestWithParam<OneBlock> {};

TEST_P(LessonTextBlock, IsKnown) {
    const OneBlock& row = GetParam();
    const LessonText text = blocks(row.markdown);
    ASSERT_FALSE(text.empty());
    const TextBlock& last = text.back();
    EXPECT_EQ(last.kind, row.kind);
    EXPECT_EQ(last.level, row.level);
    EXPECT_EQ(last.number, row.number);
    EXPECT_EQ(last.kind == Kind::Code ? last.code : plainRuns(last.runs), row.text);
}

INSTANTIATE_TEST_SUITE_P(Kinds, LessonTextBlock,
                         testing::Values(OneBlock{"## Heading", Kind::Heading, 2, 0, "Heading"},
                                         OneBlock{"two\nlines", Kind::Paragraph, 0, 0, "two lines"},
                                         OneBlock{"forced  \nend", Kind::Paragraph, 0, 0, "forced\nend"},
                                         OneBlock{"- dot", Kind::ListItem, 1, 0, "dot"},
                                         OneBlock{"- a\n  - b", Kind::ListItem, 2, 0, "b"},
                                         OneBlock{"3. a\n4. b", Kind::ListItem, 1, 4, "b"},
                                         OneBlock{"- a\n\n  more", Kind::Paragraph, 1, 0, "more"},
                                         OneBlock{"    N10 G00\n", Kind::Code, 0, 0, "N10 G00\n"},
                                         OneBlock{"a\n\n---\n", Kind::Rule, 0, 0, ""},
                                         OneBlock{"see [this](http://example.org)", Kind::Paragraph, 0, 0, "see this"},
                                         OneBlock{"5 < 6 & 7 > 2", Kind::Paragraph, 0, 0, "5 < 6 & 7 > 2"}));

TEST(LessonText, KnowsQuotes) {
    EXPECT_TRUE(blocks("> a\n")[0].quoted);
    EXPECT_FALSE(blocks("> a\n\nb").back().quoted);
}

TEST(LessonText, APictureIsAViewOfTheJob) {
    const LessonText text = blocks("before ![under](section@N210) behind\n\n![](close@14.5s)\n\n![](end-on@end)");
    ASSERT_THAT(text, SizeIs(5));
    EXPECT_EQ(text[1].kind, Kind::Picture);
    EXPECT_EQ(text[1].figure.view, LessonView::Section);
    EXPECT_EQ(text[1].figure.afterLine, (LinePlace{210, true}));
    EXPECT_EQ(plainRuns(text[1].runs), "under");
    EXPECT_EQ(plainRuns(text[2].runs), " behind");
    EXPECT_EQ(text[3].figure.atTimeS, 14.5);
    EXPECT_EQ(text[4].figure.view, LessonView::EndOn);
    EXPECT_FALSE(text[4].figure.atTimeS || text[4].figure.afterLine);
}

struct BadText {
    std::string markdown;
    std::uint32_t line;
    const char* cause;
};

class BadLessonText : public testing::TestWithParam<BadText> {};

TEST_P(BadLessonText, IsToldAtItsLine) {
    const ReadLessonText read = readLessonText(GetParam().markdown);
    ASSERT_THAT(read.faults, SizeIs(1));
    EXPECT_EQ(read.faults[0].line, GetParam().line);
    EXPECT_THAT(read.faults[0].cause, HasSubstr(GetParam().cause));
    EXPECT_FALSE(read.faults[0].remedy.empty());
}

INSTANTIATE_TEST_SUITE_P(Rows, BadLessonText,
                         testing::Values(BadText{"a\n\n<script>alert(1)</script>\n\nb", 3, "HTML"},
                                         BadText{"a\nb <b>c", 2, "HTML"},
                                         BadText{"a\n\n![x](photo.png)", 3, "photo.png"},
                                         BadText{"![x](section@somewhere)", 1, "somewhere"},
                                         BadText{"![x](section@-4s)", 1, "-4s"}, BadText{"a\nb\xFF", 2, "no text"},
                                         BadText{std::string("a\n\nb\0c", 6), 3, "no text"},
                                         BadText{std::string(kMostTextBytes + 1, 'a'), 0, "bytes"}));

TEST(LessonText, KeepsWhatStandsBesideAFault) {
    EXPECT_THAT(readLessonText("a\n\n<div>\n\nb").blocks, SizeIs(2));
    EXPECT_THAT(readLessonText("a <b>c").blocks, SizeIs(1));
}

// Deep nesting must end, and not fill the stack.
TEST(LessonText, DeepNestingEnds) {
    EXPECT_THAT(readLessonText(std::string(50000, '>')).faults, IsEmpty());
    EXPECT_THAT(readLessonText(std::string(50000, '*') + "a" + std::string(50000, '*')).faults, IsEmpty());
}

TEST(LessonText, WrapsForATerminal) {
    EXPECT_EQ(plainLines(blocks("## A\n\none two three\n\n- four five\n- six\n\n![x](part@N5)"), 10),
              "A\n\none two\nthree\n\n- four\n  five\n- six\n\n[part,\nafter N5:\nx]\n");
}

}  // namespace
}  // namespace firstoff
