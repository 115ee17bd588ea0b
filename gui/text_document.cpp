#include "gui/text_document.h"

#include <algorithm>
#include <atomic>
#include <utility>

namespace firstoff::gui {

namespace {

bool continuesCharacter(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0u) == 0x80u;
}

// Longest UTF-8 sequence; bounds the walk over text that is not UTF-8 at all.
constexpr int kLongestSequence = 4;

}  // namespace

TextDocument::TextDocument(std::string text) : text_(std::move(text)) {
    // Room for what will be typed: the first key must not wait until a long text was moved elsewhere.
    text_.reserve(text_.size() + text_.size() / 64 + 256);
    for (std::size_t i = 0; i < text_.size(); ++i) {
        if (text_[i] == '\n') lineStarts_.push_back(i + 1);
    }
    crlf_ = lineStarts_.size() > 1 && lineStarts_[1] >= 2 && text_[lineStarts_[1] - 2] == '\r';
}

std::uint64_t TextDocument::freshRevision() {
    static std::atomic<std::uint64_t> last = 0;
    return ++last;
}

std::size_t TextDocument::lineEnd(std::size_t line) const {
    if (line + 1 == lineStarts_.size()) return text_.size();
    std::size_t end = lineStarts_[line + 1] - 1;
    if (end > lineStarts_[line] && text_[end - 1] == '\r') --end;
    return end;
}

std::string_view TextDocument::line(std::size_t line) const {
    const std::size_t start = lineStart(line);
    return std::string_view(text_).substr(start, lineEnd(line) - start);
}

std::size_t TextDocument::lineAt(std::size_t offset) const {
    const auto after = std::upper_bound(lineStarts_.begin(), lineStarts_.end(), offset);
    return static_cast<std::size_t>(after - lineStarts_.begin()) - 1;
}

std::size_t TextDocument::next(std::size_t offset) const {
    if (offset >= text_.size()) return text_.size();
    if (text_.compare(offset, 2, "\r\n") == 0) return offset + 2;
    ++offset;
    for (int i = 1; i < kLongestSequence && offset < text_.size() && continuesCharacter(text_[offset]); ++i) ++offset;
    return offset;
}

std::size_t TextDocument::previous(std::size_t offset) const {
    if (offset == 0) return 0;
    if (offset >= 2 && text_.compare(offset - 2, 2, "\r\n") == 0) return offset - 2;
    --offset;
    for (int i = 1; i < kLongestSequence && offset > 0 && continuesCharacter(text_[offset]); ++i) --offset;
    return offset;
}

TextDocument::Outcome TextDocument::replace(std::size_t from, std::size_t to, std::string_view with, bool typing) {
    from = std::min(from, text_.size());
    to = std::clamp(to, from, text_.size());
    if (from == to && with.empty()) return {false, from};
    return carryOut({from, text_.substr(from, to - from), std::string(with), revision_, freshRevision(), typing});
}

// One piece from the first change to the last: undo needs to know no more, and lines are counted anew only once.
TextDocument::Outcome TextDocument::replace(const TextChanges& changes, std::size_t caret) {
    if (changes.empty()) return {false, caret};
    const std::size_t from = changes.front().from, to = changes.back().to;
    std::string with;
    std::size_t at = from, moved = caret;
    for (const TextChange& change : changes) {
        with.append(text_, at, change.from - at);
        with.append(change.with);
        at = change.to;
        if (caret >= change.to)
            moved += change.with.size() - (change.to - change.from);
        else if (caret > change.from)
            moved = from + with.size();
    }
    const std::string before = text_.substr(from, to - from);
    if (before == with) return {false, caret};
    carryOut({from, before, std::move(with), revision_, freshRevision(), false});
    return {true, moved};
}

TextDocument::Outcome TextDocument::carryOut(Change change) {
    const std::size_t behind = change.at + change.inserted.size();
    splice(change.at, change.removed.size(), change.inserted);
    revision_ = change.after;
    editedTo_.push_back(revision_);
    undone_.clear();
    if (!join(change)) done_.push_back(std::move(change));
    return {true, behind};
}

// Joins a typed character to the word being typed.
bool TextDocument::join(const Change& change) {
    if (done_.empty()) return false;
    Change& last = done_.back();
    const bool follows = last.typing && change.typing && change.removed.empty() && !last.inserted.empty() &&
                         last.after == change.before && change.at == last.at + last.inserted.size();
    const bool breaks =
        change.inserted.find('\n') != std::string::npos || last.inserted.find('\n') != std::string::npos;
    if (!follows || breaks) return false;
    last.inserted += change.inserted;
    last.after = change.after;
    return true;
}

TextDocument::Outcome TextDocument::undo() {
    if (done_.empty()) return {};
    Change change = std::move(done_.back());
    done_.pop_back();
    splice(change.at, change.inserted.size(), change.removed);
    revision_ = change.before;
    editedTo_.push_back(revision_);
    const std::size_t caret = change.at + change.removed.size();
    undone_.push_back(std::move(change));
    return {true, caret};
}

TextDocument::Outcome TextDocument::redo() {
    if (undone_.empty()) return {};
    Change change = std::move(undone_.back());
    undone_.pop_back();
    splice(change.at, change.removed.size(), change.inserted);
    revision_ = change.after;
    editedTo_.push_back(revision_);
    const std::size_t caret = change.at + change.inserted.size();
    done_.push_back(std::move(change));
    return {true, caret};
}

// Keeps the line starts right without looking at lines that only shift.
void TextDocument::splice(std::size_t at, std::size_t removed, std::string_view inserted) {
    const auto firstGone = std::upper_bound(lineStarts_.begin(), lineStarts_.end(), at);
    const auto firstKept = std::upper_bound(firstGone, lineStarts_.end(), at + removed);
    for (auto start = firstKept; start != lineStarts_.end(); ++start) *start = *start - removed + inserted.size();
    std::vector<std::size_t> fresh;
    for (std::size_t i = 0; i < inserted.size(); ++i) {
        if (inserted[i] == '\n') fresh.push_back(at + i + 1);
    }
    const auto line = static_cast<std::size_t>(firstGone - lineStarts_.begin()) - 1;
    const auto gone = static_cast<std::size_t>(firstKept - firstGone);
    edits_.push_back({line, gone, fresh.size(), at == lineStarts_[line]});
    const auto hole = lineStarts_.erase(firstGone, firstKept);
    lineStarts_.insert(hole, fresh.begin(), fresh.end());
    text_.replace(at, removed, inserted);
}

// How many edits were done when the text had this revision last; 0 if that is longer ago than is remembered.
std::ptrdiff_t TextDocument::editsUpTo(std::uint64_t revision) const {
    const auto known = std::find(editedTo_.rbegin(), editedTo_.rend(), revision);
    return known == editedTo_.rend() ? 0 : known.base() - editedTo_.begin();
}

LineShift TextDocument::shiftBetween(std::uint64_t older, std::uint64_t newer) const {
    if (older == newer) return {};
    const std::ptrdiff_t first = editsUpTo(older), end = editsUpTo(newer);
    return end <= first ? LineShift() : LineShift({edits_.begin() + first, edits_.begin() + end});
}

void TextDocument::forgetShiftsBefore(std::uint64_t revision) {
    const std::ptrdiff_t count = editsUpTo(revision);
    edits_.erase(edits_.begin(), edits_.begin() + count);
    editedTo_.erase(editedTo_.begin(), editedTo_.begin() + count);
}

}  // namespace firstoff::gui
