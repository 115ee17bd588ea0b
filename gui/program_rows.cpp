#include "gui/program_rows.h"

#include <algorithm>

namespace firstoff::gui {

void ProgramRows::set(std::size_t lines, const std::vector<Extra>& extras) {
    lines_ = lines;
    held_.clear();
    before_.clear();
    std::size_t sum = 0;
    for (const Extra& extra : extras) {
        if (extra.rows == 0 || extra.line >= lines) continue;
        held_.push_back(extra.line);
        before_.push_back(sum += extra.rows);
    }
}

std::size_t ProgramRows::rowOf(std::size_t line) const {
    const auto at = static_cast<std::size_t>(std::lower_bound(held_.begin(), held_.end(), line) - held_.begin());
    return line + (at == 0 ? 0 : before_[at - 1]);
}

std::size_t ProgramRows::below(std::size_t line) const {
    const auto found = std::lower_bound(held_.begin(), held_.end(), line);
    if (found == held_.end() || *found != line) return 0;
    const auto at = static_cast<std::size_t>(found - held_.begin());
    return before_[at] - (at == 0 ? 0 : before_[at - 1]);
}

ProgramRows::Place ProgramRows::at(std::size_t row) const {
    row = std::min(row, count() - 1);
    // The first line with rows beneath it whose own row lies past this one.
    std::size_t low = 0, high = held_.size();
    while (low < high) {
        const std::size_t middle = (low + high) / 2;
        if (rowOf(held_[middle]) <= row) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    if (low == 0) return {row, 0};
    const std::size_t held = held_[low - 1];
    const std::size_t beyond = row - rowOf(held);
    const std::size_t rows = below(held);
    return beyond <= rows ? Place{held, beyond} : Place{held + beyond - rows, 0};
}

}  // namespace firstoff::gui
