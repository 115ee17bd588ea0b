// The text being edited: every byte kept, with undo. Knows nothing about carets or drawing.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "gui/line_shift.h"
#include "sim/editing/text_change.h"

namespace firstoff::gui {

// Positions are byte offsets into text(). A line ends at LF, or at CR LF; the ends stay in the text as they were read.
class TextDocument {
public:
    TextDocument() = default;
    explicit TextDocument(std::string text);

    const std::string& text() const { return text_; }
    std::size_t lineCount() const { return lineStarts_.size(); }
    std::size_t lineStart(std::size_t line) const { return lineStarts_[line]; }
    // First byte of the line end (or the end of the text).
    std::size_t lineEnd(std::size_t line) const;
    std::string_view line(std::size_t line) const;
    std::size_t lineAt(std::size_t offset) const;
    // "\r\n" if the first line ends so, else "\n".
    std::string_view lineBreak() const { return crlf_ ? "\r\n" : "\n"; }

    // One character (UTF-8 sequence or whole line end) to the right or left; stays at the ends of the text.
    std::size_t next(std::size_t offset) const;
    std::size_t previous(std::size_t offset) const;

    // Where the caret belongs after a change.
    struct Outcome {
        bool changed = false;
        std::size_t caret = 0;
    };
    // Puts `with` in place of the bytes [from, to). Typing on directly after the last change joins it in one undo step
    // when `typing` is set; a line end, or a change elsewhere, starts a new step.
    Outcome replace(std::size_t from, std::size_t to, std::string_view with, bool typing = false);
    // All of them in one undo step; the caret stays at the text where it is, or goes behind a piece that was put in its
    // place.
    Outcome replace(const TextChanges& changes, std::size_t caret);
    Outcome undo();
    Outcome redo();
    bool canUndo() const { return !done_.empty(); }
    bool canRedo() const { return !undone_.empty(); }

    // Names the text: changes with every change, comes back to an old value when an undo brings the old text back, and
    // is never that of another document.
    std::uint64_t revision() const { return revision_; }

    // How lines of the text of an older revision stand in that of today. Goes back no further than the last call of
    // `forgetShiftsBefore`: older texts are taken as that one.
    LineShift shiftSince(std::uint64_t revision) const { return shiftBetween(revision, revision_); }
    LineShift shiftBetween(std::uint64_t older, std::uint64_t newer) const;
    void forgetShiftsBefore(std::uint64_t revision);

private:
    struct Change {
        std::size_t at = 0;
        std::string removed;
        std::string inserted;
        std::uint64_t before = 0;  // revisions
        std::uint64_t after = 0;
        bool typing = false;
    };
    static std::uint64_t freshRevision();
    Outcome carryOut(Change change);
    std::ptrdiff_t editsUpTo(std::uint64_t revision) const;
    bool join(const Change& change);
    void splice(std::size_t at, std::size_t removed, std::string_view inserted);

    std::string text_;
    std::vector<std::size_t> lineStarts_{0};
    bool crlf_ = false;
    std::vector<Change> done_;
    std::vector<Change> undone_;
    std::uint64_t revision_ = freshRevision();
    std::vector<LineEdit> edits_;
    std::vector<std::uint64_t> editedTo_;  // the revision after each
};

}  // namespace firstoff::gui
