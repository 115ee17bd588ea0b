#include "gui/program_editor.h"

#include <algorithm>
#include <cctype>

namespace firstoff::gui {

namespace {

bool isSpace(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}
bool isLetter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}
// What may stand in the number of a word of the program, expressions aside.
bool isNumber(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '-' || c == '+';
}

}  // namespace

std::string utf8Of(char32_t c) {
    const auto tail = [&](int shift) { return static_cast<char>(0x80 | ((c >> shift) & 0x3F)); };
    if (c < 0x80) return {static_cast<char>(c)};
    if (c < 0x800) return {static_cast<char>(0xC0 | (c >> 6)), tail(0)};
    if (c < 0x10000) return {static_cast<char>(0xE0 | (c >> 12)), tail(6), tail(0)};
    return {static_cast<char>(0xF0 | (c >> 18)), tail(12), tail(6), tail(0)};
}

std::string_view ProgramEditor::selected() const {
    return std::string_view(document_->text()).substr(selectionStart(), selectionEnd() - selectionStart());
}

void ProgramEditor::place(std::size_t offset, bool select) {
    caret_ = std::min(offset, document_->text().size());
    if (!select) anchor_ = caret_;
    wantedCell_ = cellOf(caret_);
}

void ProgramEditor::move(Motion motion, bool select, std::size_t linesPerPage) {
    const bool vertical =
        motion == Motion::Up || motion == Motion::Down || motion == Motion::PageUp || motion == Motion::PageDown;
    const std::size_t wanted = wantedCell_;
    // Left and Right without Shift leave a selection at its end, as every editor does.
    if (hasSelection() && !select && (motion == Motion::Left || motion == Motion::Right)) {
        place(motion == Motion::Left ? selectionStart() : selectionEnd());
        return;
    }
    place(target(motion, std::max<std::size_t>(linesPerPage, 1)), select);
    if (vertical) wantedCell_ = wanted;
}

std::size_t ProgramEditor::target(Motion motion, std::size_t linesPerPage) const {
    const std::size_t line = caretLine();
    const std::size_t last = document_->lineCount() - 1;
    switch (motion) {
        case Motion::Left:
            return document_->previous(caret_);
        case Motion::Right:
            return document_->next(caret_);
        case Motion::WordLeft:
            return wordLeft(caret_);
        case Motion::WordRight:
            return wordRight(caret_);
        case Motion::Up:
            return line == 0 ? 0 : onLine(line - 1);
        case Motion::Down:
            return line == last ? document_->text().size() : onLine(line + 1);
        case Motion::PageUp:
            return onLine(line - std::min(line, linesPerPage));
        case Motion::PageDown:
            return onLine(std::min(line + linesPerPage, last));
        case Motion::LineStart:
            return document_->lineStart(line);
        case Motion::LineEnd:
            return document_->lineEnd(line);
        case Motion::Start:
            return 0;
        case Motion::End:
            return document_->text().size();
    }
    return caret_;
}

std::size_t ProgramEditor::onLine(std::size_t line) const {
    return offsetAtCell(line, wantedCell_);
}

// A word of the program is a letter and its number, so `G01X20.` is two words; anything else goes by spaces.
std::size_t ProgramEditor::wordRight(std::size_t offset) const {
    const std::string& text = document_->text();
    const std::size_t start = offset;
    if (offset < text.size() && isLetter(text[offset])) ++offset;
    while (offset < text.size() && isNumber(text[offset])) ++offset;
    if (offset == start) offset = document_->next(offset);
    while (offset < text.size() && (text[offset] == ' ' || text[offset] == '\t')) ++offset;
    return offset;
}

std::size_t ProgramEditor::wordLeft(std::size_t offset) const {
    const std::string& text = document_->text();
    while (offset > 0 && (text[offset - 1] == ' ' || text[offset - 1] == '\t')) --offset;
    const std::size_t start = offset;
    while (offset > 0 && isNumber(text[offset - 1])) --offset;
    if (offset > 0 && isLetter(text[offset - 1])) --offset;
    return offset == start ? document_->previous(offset) : offset;
}

void ProgramEditor::selectWordAt(std::size_t offset) {
    const std::string& text = document_->text();
    offset = std::min(offset, text.size());
    std::size_t from = offset;
    const bool atLetter = from < text.size() && isLetter(text[from]);
    while (!atLetter && from > 0 && isNumber(text[from - 1])) --from;
    if (!atLetter && from > 0 && isLetter(text[from - 1])) --from;
    std::size_t to = wordRight(from);
    while (to > from && isSpace(text[to - 1])) --to;
    place(from);
    place(to, true);
}

void ProgramEditor::selectLine(std::size_t line) {
    place(document_->lineStart(line));
    const bool last = line + 1 == document_->lineCount();
    place(last ? document_->text().size() : document_->lineStart(line + 1), true);
}

void ProgramEditor::selectAll() {
    place(0);
    place(document_->text().size(), true);
}

bool ProgramEditor::land(const TextDocument::Outcome& outcome) {
    if (outcome.changed) place(outcome.caret);
    return outcome.changed;
}

bool ProgramEditor::replaceSelection(std::string_view with, bool typing) {
    return land(document_->replace(selectionStart(), selectionEnd(), with, typing));
}

bool ProgramEditor::type(std::string_view utf8) {
    return replaceSelection(utf8, !hasSelection());
}

bool ProgramEditor::newLine() {
    return replaceSelection(document_->lineBreak(), false);
}

// Pasted line ends become those of the document, so that a file never ends up with both kinds by our doing.
bool ProgramEditor::paste(std::string_view text) {
    std::string own;
    own.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\0') continue;
        if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
        if (text[i] == '\n') {
            own += document_->lineBreak();
        } else {
            own += text[i];
        }
    }
    return replaceSelection(own, false);
}

bool ProgramEditor::eraseBackward(bool word) {
    if (hasSelection()) return cut();
    return land(document_->replace(word ? wordLeft(caret_) : document_->previous(caret_), caret_, ""));
}

bool ProgramEditor::eraseForward(bool word) {
    if (hasSelection()) return cut();
    return land(document_->replace(caret_, word ? wordRight(caret_) : document_->next(caret_), ""));
}

bool ProgramEditor::cut() {
    return hasSelection() && replaceSelection("", false);
}
bool ProgramEditor::undo() {
    return land(document_->undo());
}
bool ProgramEditor::redo() {
    return land(document_->redo());
}

std::size_t ProgramEditor::cellOf(std::size_t offset) const {
    const std::size_t start = document_->lineStart(document_->lineAt(offset));
    std::size_t cell = 0;
    for (std::size_t i = start; i < offset; i = document_->next(i)) {
        cell = document_->text()[i] == '\t' ? (cell / kTabCells + 1) * kTabCells : cell + 1;
    }
    return cell;
}

std::size_t ProgramEditor::offsetAtCell(std::size_t line, std::size_t cell) const {
    const std::size_t end = document_->lineEnd(line);
    std::size_t at = 0;
    for (std::size_t i = document_->lineStart(line); i < end; i = document_->next(i)) {
        const std::size_t after = document_->text()[i] == '\t' ? (at / kTabCells + 1) * kTabCells : at + 1;
        if (after > cell) return i;
        at = after;
    }
    return end;
}

void ProgramEditor::reset() {
    place(0);
}

}  // namespace firstoff::gui
