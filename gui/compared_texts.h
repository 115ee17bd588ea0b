// Two texts side by side: the rows they make, where they differ, and a difference taken over from one into the other.
#pragma once

#include <cstdint>
#include <future>
#include <vector>

#include "gui/text_document.h"
#include "sim/editing/line_differences.h"

namespace firstoff::gui {

enum class Side { Left, Right };

// Rows of both texts in step: a line of either side, or none where the other has more.
class ComparedTexts {
public:
    static constexpr std::size_t kNoLine = static_cast<std::size_t>(-1);
    struct Row {
        std::size_t left = kNoLine, right = kNoLine;
        std::size_t difference = kNoLine;  // which of them it belongs to
    };

    // Looks for differences beside the window, since a million lines take a second; `poll` takes them up when they are
    // there and the texts are still the same, and starts anew when they are not.
    void poll(const TextDocument& left, const TextDocument& right);
    // Until it is known what differs.
    void finish(const TextDocument& left, const TextDocument& right);
    bool known() const { return known_; }

    const std::vector<LineDifference>& differences() const { return differences_; }
    std::size_t rowCount() const { return rows_; }
    Row row(std::size_t index) const;
    std::size_t rowOf(std::size_t difference) const { return firstRows_[difference]; }

    // What makes `into` like `from` in one difference; for the document of `into` as it stands.
    TextChanges taken(std::size_t difference, const TextDocument& from, const TextDocument& into, Side side) const;
    // After that change was made: the difference is gone, those behind it have moved. Saves comparing all anew.
    void settled(std::size_t difference, Side side, const TextDocument& left, const TextDocument& right);

private:
    void ask(const TextDocument& left, const TextDocument& right);
    void countRows(std::size_t lefts);
    bool suits(const TextDocument& left, const TextDocument& right) const;

    struct Answer {
        std::vector<LineDifference> differences;
        std::uint64_t left = 0, right = 0;  // revisions
    };
    std::future<Answer> asked_;
    std::vector<LineDifference> differences_;
    std::vector<std::size_t> firstRows_;  // of each difference
    std::size_t rows_ = 0;
    std::uint64_t left_ = 0, right_ = 0;
    bool known_ = false;
};

}  // namespace firstoff::gui
