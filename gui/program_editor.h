// Caret and selection over a TextDocument, and what the keys of an editor do to them. No drawing, no window.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "gui/text_document.h"

namespace firstoff::gui {

// One character as UTF-8.
std::string utf8Of(char32_t c);

class ProgramEditor {
public:
    enum class Motion { Left, Right, WordLeft, WordRight, Up, Down, PageUp, PageDown, LineStart, LineEnd, Start, End };

    explicit ProgramEditor(TextDocument& document) : document_(&document) {}

    std::size_t caret() const { return caret_; }
    std::size_t caretLine() const { return document_->lineAt(caret_); }
    std::size_t selectionStart() const { return caret_ < anchor_ ? caret_ : anchor_; }
    std::size_t selectionEnd() const { return caret_ < anchor_ ? anchor_ : caret_; }
    bool hasSelection() const { return caret_ != anchor_; }
    std::string_view selected() const;

    // `select` keeps the other end of the selection where it is (Shift held).
    void place(std::size_t offset, bool select = false);
    void move(Motion motion, bool select, std::size_t linesPerPage = 20);
    void selectWordAt(std::size_t offset);
    void selectLine(std::size_t line);
    void selectAll();

    // Each returns whether the text changed.
    bool type(std::string_view utf8);
    bool newLine();
    bool paste(std::string_view text);
    bool eraseBackward(bool word);
    bool eraseForward(bool word);
    bool cut();  // the caller copies selected() first
    bool undo();
    bool redo();

    // Cells from the start of the line: a tab goes to the next multiple of kTabCells, every other character is one
    // cell.
    static constexpr std::size_t kTabCells = 4;
    std::size_t cellOf(std::size_t offset) const;
    std::size_t offsetAtCell(std::size_t line, std::size_t cell) const;

    // After the text was replaced behind the editor's back (a file was opened).
    void reset();

private:
    std::size_t target(Motion motion, std::size_t linesPerPage) const;
    std::size_t onLine(std::size_t line) const;
    std::size_t wordLeft(std::size_t offset) const;
    std::size_t wordRight(std::size_t offset) const;
    bool replaceSelection(std::string_view with, bool typing);
    bool land(const TextDocument::Outcome& outcome);

    TextDocument* document_;
    std::size_t caret_ = 0;
    std::size_t anchor_ = 0;
    std::size_t wantedCell_ = 0;  // where Up and Down try to stay
};

}  // namespace firstoff::gui
