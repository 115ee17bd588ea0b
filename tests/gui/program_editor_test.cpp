#include "gui/program_editor.h"

#include <gtest/gtest.h>

namespace firstoff::gui {
namespace {

using Motion = ProgramEditor::Motion;

// The text with `|` at the caret and `[` `]` about a selection.
std::string shown(const TextDocument& document, const ProgramEditor& editor) {
    std::string text = document.text();
    if (!editor.hasSelection()) return text.insert(editor.caret(), 1, '|');
    text.insert(editor.selectionEnd(), 1, ']');
    return text.insert(editor.selectionStart(), 1, '[');
}

struct MotionRow {
    const char* name;
    const char* text;
    std::size_t from;
    std::vector<Motion> motions;
    const char* shown;
};

class Moves : public testing::TestWithParam<MotionRow> {};

TEST_P(Moves, LeadWhereAnEditorLeads) {
    TextDocument document(GetParam().text);
    ProgramEditor editor(document);
    editor.place(GetParam().from);
    for (const Motion motion : GetParam().motions) editor.move(motion, false, 2);
    EXPECT_EQ(shown(document, editor), GetParam().shown);
}

INSTANTIATE_TEST_SUITE_P(
    Keys, Moves,
    testing::Values(
        MotionRow{"RightOverLineEnd", "G1\r\nX2", 2, {Motion::Right}, "G1\r\n|X2"},
        MotionRow{"LeftOverLineEnd", "G1\r\nX2", 4, {Motion::Left}, "G1|\r\nX2"},
        MotionRow{"WordsWithoutSpaces", "G01X20.Z-3.", 0, {Motion::WordRight, Motion::WordRight}, "G01X20.|Z-3."},
        MotionRow{"WordBack", "G01X20.Z-3.", 7, {Motion::WordLeft}, "G01|X20.Z-3."},
        MotionRow{"WordOverSpaces", "G01  X20.", 0, {Motion::WordRight}, "G01  |X20."},
        MotionRow{"DownKeepsTheCell", "G01 X1\nM8\nG01 X2", 5, {Motion::Down, Motion::Down}, "G01 X1\nM8\nG01 X|2"},
        MotionRow{"UpFromTheFirstLine", "G01\nM8", 2, {Motion::Up}, "|G01\nM8"},
        MotionRow{"DownFromTheLastLine", "G01\nM8", 4, {Motion::Down}, "G01\nM8|"},
        MotionRow{"Home", "G01\nM8", 5, {Motion::LineStart}, "G01\n|M8"},
        MotionRow{"EndBeforeCarriageReturn", "G01\r\nM8", 0, {Motion::LineEnd}, "G01|\r\nM8"},
        MotionRow{"PageDownStopsAtTheEnd", "1\n2\n3\n4", 0, {Motion::PageDown, Motion::PageDown}, "1\n2\n3\n|4"},
        MotionRow{"PageUp", "1\n2\n3\n4", 6, {Motion::PageUp}, "1\n|2\n3\n4"},
        MotionRow{"TabIsFourCells", "\tX\nG01 X", 1, {Motion::Down}, "\tX\nG01 |X"}),
    [](const auto& row) { return row.param.name; });

TEST(ProgramEditor, SelectsWithShiftAndLeavesASelectionAtItsEnd) {
    TextDocument document("G01 X20.");
    ProgramEditor editor(document);
    editor.move(Motion::WordRight, true);
    EXPECT_EQ(shown(document, editor), "[G01 ]X20.");
    editor.move(Motion::Left, false);
    EXPECT_EQ(shown(document, editor), "|G01 X20.");
}

TEST(ProgramEditor, SelectsTheWordOfTheProgramUnderADoubleClick) {
    TextDocument document("G01X-20.5 F.2");
    ProgramEditor editor(document);
    for (const std::size_t at : {3u, 4u, 6u, 8u}) {
        editor.selectWordAt(at);
        EXPECT_EQ(editor.selected(), "X-20.5") << at;
    }
}

TEST(ProgramEditor, ReplacesASelectionByWhatIsTyped) {
    TextDocument document("G01 X20.");
    ProgramEditor editor(document);
    editor.place(4);
    editor.move(Motion::LineEnd, true);
    EXPECT_TRUE(editor.type("Z"));
    EXPECT_TRUE(editor.type("5"));
    EXPECT_EQ(shown(document, editor), "G01 Z5|");
    EXPECT_TRUE(editor.undo());
    EXPECT_TRUE(editor.undo());
    EXPECT_EQ(document.text(), "G01 X20.");
}

TEST(ProgramEditor, GivesNewAndPastedLinesTheLineEndOfTheFile) {
    TextDocument document("G01\r\nM30");
    ProgramEditor editor(document);
    editor.place(3);
    editor.newLine();
    editor.paste("X1\nX2\r\nX3");
    EXPECT_EQ(document.text(), "G01\r\nX1\r\nX2\r\nX3\r\nM30");
}

TEST(ProgramEditor, ErasesWholeLineEndsAndWholeWords) {
    TextDocument document("G01 X20.\r\nM30");
    ProgramEditor editor(document);
    editor.place(10);
    EXPECT_TRUE(editor.eraseBackward(false));
    EXPECT_EQ(shown(document, editor), "G01 X20.|M30");
    EXPECT_TRUE(editor.eraseBackward(true));
    EXPECT_EQ(shown(document, editor), "G01 |M30");
    EXPECT_TRUE(editor.eraseForward(true));
    EXPECT_EQ(shown(document, editor), "G01 |");
    EXPECT_FALSE(editor.eraseForward(false));
    EXPECT_FALSE(ProgramEditor(document).eraseBackward(false));
}

}  // namespace
}  // namespace firstoff::gui
