#include "gui/text_document.h"

#include <gtest/gtest.h>

#include <random>

namespace firstoff::gui {
namespace {

std::vector<std::string> linesOf(const TextDocument& document) {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < document.lineCount(); ++i) lines.emplace_back(document.line(i));
    return lines;
}

using Lines = std::vector<std::string>;

TEST(TextDocument, HasAsManyLinesAsAnEditorShows) {
    struct Row {
        const char* text;
        Lines lines;
    };
    const Row rows[] = {
        {"", {""}},
        {"G01", {"G01"}},
        {"G01\n", {"G01", ""}},
        {"G01\r\nX1\r\n", {"G01", "X1", ""}},
        {"\n\nM30", {"", "", "M30"}},
        {"G01\rX1", {"G01\rX1"}},  // a lone CR ends no line
    };
    for (const Row& row : rows) EXPECT_EQ(linesOf(TextDocument(row.text)), row.lines) << row.text;
}

TEST(TextDocument, KeepsTheLineEndOfTheFile) {
    EXPECT_EQ(TextDocument("G01\r\nX1\n").lineBreak(), "\r\n");
    EXPECT_EQ(TextDocument("G01\nX1\r\n").lineBreak(), "\n");
    EXPECT_EQ(TextDocument("G01").lineBreak(), "\n");
}

TEST(TextDocument, StepsOverWholeCharactersAndLineEnds) {
    const TextDocument document("a\u00e9\r\n\u20ac");
    std::vector<std::size_t> stops;
    for (std::size_t at = 0; at < document.text().size(); at = document.next(at)) stops.push_back(at);
    EXPECT_EQ(stops, (std::vector<std::size_t>{0, 1, 3, 5}));
    EXPECT_EQ(document.previous(8), 5u);
    EXPECT_EQ(document.previous(5), 3u);
    EXPECT_EQ(document.previous(0), 0u);
}

TEST(TextDocument, DoesNotLoseItsWayInBytesThatAreNoText) {
    const TextDocument document(std::string(10, '\x80'));
    std::size_t at = 0;
    int steps = 0;
    for (; at < document.text().size(); at = document.next(at)) ++steps;
    EXPECT_EQ(at, 10u);
    EXPECT_LE(steps, 10);
}

TEST(TextDocument, UndoesTypingWordByWordAndOtherChangesOneByOne) {
    TextDocument document("G01");
    for (const char* c : {" ", "X", "2"}) document.replace(document.text().size(), document.text().size(), c, true);
    document.replace(0, 3, "G00");
    EXPECT_EQ(document.text(), "G00 X2");
    EXPECT_EQ(document.undo().caret, 3u);
    EXPECT_EQ(document.text(), "G01 X2");
    document.undo();
    EXPECT_EQ(document.text(), "G01");
    EXPECT_FALSE(document.canUndo());
    document.redo();
    document.redo();
    EXPECT_EQ(document.text(), "G00 X2");
    EXPECT_FALSE(document.redo().changed);
}

TEST(TextDocument, NamesATextByItsRevision) {
    TextDocument document("G01");
    const TextDocument other("G01");
    EXPECT_NE(document.revision(), other.revision());
    const auto before = document.revision();
    document.replace(0, 1, "g");
    EXPECT_NE(document.revision(), before);
    document.undo();
    EXPECT_EQ(document.revision(), before);
}

TEST(TextDocument, ReplacesManyPiecesInOneUndoStep) {
    TextDocument document("G01 X1\nX1 X1\n");
    const TextChanges changes{{4, 6, "X12"}, {7, 9, ""}, {10, 12, "X3\nX4"}};
    const auto outcome = document.replace(changes, 12);
    EXPECT_TRUE(outcome.changed);
    EXPECT_EQ(document.text(), "G01 X12\n X3\nX4\n");
    EXPECT_EQ(outcome.caret, 14u);  // behind the last piece, as it was
    EXPECT_EQ(linesOf(document), linesOf(TextDocument(document.text())));
    EXPECT_EQ(document.undo().changed, true);
    EXPECT_EQ(document.text(), "G01 X1\nX1 X1\n");
    EXPECT_FALSE(document.canUndo());
    document.redo();
    EXPECT_EQ(document.text(), "G01 X12\n X3\nX4\n");
    EXPECT_FALSE(document.replace(TextChanges{{0, 1, "G"}}, 0).changed);  // nothing differs
    EXPECT_FALSE(document.replace(TextChanges{}, 0).changed);
}

TEST(TextDocument, LeavesTheCaretAtItsText) {
    struct Row {
        std::size_t caret, after;
    };
    for (const Row& row : {Row{0, 0}, {2, 2}, {3, 5}, {4, 5}, {6, 7}}) {
        TextDocument document("abcdef");
        EXPECT_EQ(document.replace(TextChanges{{2, 4, "XYZ"}}, row.caret).caret, row.after) << row.caret;
    }
}

// The quick way of keeping line starts against the slow one: reading the whole text anew.
TEST(TextDocument, FindsTheSameLinesAsReadingTheTextAnew) {
    std::mt19937 random(7);  // any fixed seed
    const char* pieces[] = {"", "X", "\n", "\r\n", "G01 X2.\nZ-3.\n", "\n\n\n"};
    TextDocument document("N10 G00\nN20 G01\n");
    for (int i = 0; i < 2000; ++i) {
        const std::size_t size = document.text().size();
        const std::size_t from = random() % (size + 1);
        const std::size_t to = std::min(size, from + random() % 12);
        const unsigned what = random() % 8;
        if (what == 0) document.undo();
        if (what == 1) document.redo();
        if (what > 1) document.replace(from, to, pieces[random() % 6], what == 2);
        ASSERT_EQ(linesOf(document), linesOf(TextDocument(document.text()))) << "after change " << i;
    }
}

}  // namespace
}  // namespace firstoff::gui
