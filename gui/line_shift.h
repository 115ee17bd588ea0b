// Where lines of a text stand after it was edited: what a trial says of a line goes with it until the next trial.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace firstoff::gui {

// From line `line` on, `removed` line ends went and `inserted` came.
struct LineEdit {
    std::size_t line = 0;
    std::size_t removed = 0, inserted = 0;
    bool atStart = false;  // at the very beginning of the line, so that its own text stands below what came
    friend bool operator==(const LineEdit&, const LineEdit&) = default;
};

class LineShift {
public:
    static constexpr std::size_t kGone = static_cast<std::size_t>(-1);

    LineShift() = default;
    // Edits that neither took nor brought lines count for nothing.
    explicit LineShift(std::vector<LineEdit> edits);

    // From the old text to the new one and back; kGone where there is no such line.
    std::size_t now(std::size_t line) const;
    std::size_t then(std::size_t line) const;

    // Lines of the old text, ascending, where they stand in the new one; those that are gone are left out.
    std::vector<std::size_t> now(const std::vector<std::size_t>& lines) const;
    bool empty() const { return edits_.empty(); }

private:
    std::vector<LineEdit> edits_;  // oldest first
};

}  // namespace firstoff::gui
