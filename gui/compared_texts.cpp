#include "gui/compared_texts.h"

#include <algorithm>
#include <chrono>

namespace firstoff::gui {

namespace {

std::size_t rowsOf(const LineDifference& d) {
    return std::max(d.leftEnd - d.left, d.rightEnd - d.right);
}

}  // namespace

bool ComparedTexts::suits(const TextDocument& left, const TextDocument& right) const {
    return left_ == left.revision() && right_ == right.revision();
}

void ComparedTexts::ask(const TextDocument& left, const TextDocument& right) {
    asked_ = std::async(std::launch::async,
                        [l = left.text(), r = right.text(), lr = left.revision(), rr = right.revision()] {
                            return Answer{lineDifferences(linesOf(l), linesOf(r)), lr, rr};
                        });
}

void ComparedTexts::poll(const TextDocument& left, const TextDocument& right) {
    known_ = known_ && suits(left, right);
    if (known_) return;
    if (!asked_.valid()) return ask(left, right);
    if (asked_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return;
    Answer answer = asked_.get();
    left_ = answer.left;
    right_ = answer.right;
    if (!suits(left, right)) return ask(left, right);
    differences_ = std::move(answer.differences);
    countRows(left.lineCount());
    known_ = true;
}

void ComparedTexts::finish(const TextDocument& left, const TextDocument& right) {
    poll(left, right);
    while (!known_) {
        asked_.wait();
        poll(left, right);
    }
}

void ComparedTexts::countRows(std::size_t lefts) {
    firstRows_.clear();
    std::size_t row = 0, line = 0;
    for (const LineDifference& d : differences_) {
        row += d.left - line;
        firstRows_.push_back(row);
        row += rowsOf(d);
        line = d.leftEnd;
    }
    rows_ = row + lefts - line;
}

ComparedTexts::Row ComparedTexts::row(std::size_t index) const {
    const auto behind = std::upper_bound(firstRows_.begin(), firstRows_.end(), index);
    if (behind == firstRows_.begin()) return {index, index, kNoLine};
    const auto at = static_cast<std::size_t>(behind - firstRows_.begin()) - 1;
    const LineDifference& d = differences_[at];
    const std::size_t into = index - firstRows_[at];
    if (into >= rowsOf(d)) return {d.leftEnd + into - rowsOf(d), d.rightEnd + into - rowsOf(d), kNoLine};
    const std::size_t left = d.left + into, right = d.right + into;
    return {left < d.leftEnd ? left : kNoLine, right < d.rightEnd ? right : kNoLine, at};
}

TextChanges ComparedTexts::taken(std::size_t difference, const TextDocument& from, const TextDocument& into,
                                 Side side) const {
    const LineDifference& d = differences_[difference];
    const bool toLeft = side == Side::Left;
    const std::size_t first = toLeft ? d.left : d.right, end = toLeft ? d.leftEnd : d.rightEnd;
    const std::size_t other = toLeft ? d.right : d.left, otherEnd = toLeft ? d.rightEnd : d.leftEnd;
    const std::string ending(into.lineBreak());
    const bool atEnd = end == into.lineCount();
    TextChange change;
    // At the end of the text a line end stands before each line, elsewhere behind it.
    const bool before = atEnd && first > 0;
    change.from = before ? into.lineEnd(first - 1) : atEnd ? 0 : into.lineStart(first);
    change.to = atEnd ? into.text().size() : into.lineStart(end);
    for (std::size_t line = other; line < otherEnd; ++line) {
        const bool between = before || (atEnd && line > other);
        if (between) change.with += ending;
        change.with += from.line(line);
        if (!atEnd) change.with += ending;
    }
    return {change};
}

void ComparedTexts::settled(std::size_t difference, Side side, const TextDocument& left, const TextDocument& right) {
    const LineDifference d = differences_[difference];
    const std::size_t lefts = d.leftEnd - d.left, rights = d.rightEnd - d.right;
    differences_.erase(differences_.begin() + static_cast<std::ptrdiff_t>(difference));
    for (std::size_t i = difference; i < differences_.size(); ++i) {
        LineDifference& later = differences_[i];
        if (side == Side::Left) {
            later.left = later.left - lefts + rights;
            later.leftEnd = later.leftEnd - lefts + rights;
        } else {
            later.right = later.right - rights + lefts;
            later.rightEnd = later.rightEnd - rights + lefts;
        }
    }
    left_ = left.revision();
    right_ = right.revision();
    countRows(left.lineCount());
}

}  // namespace firstoff::gui
