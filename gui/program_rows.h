// Rows of the program pane: every line of the text has one, and beneath some lines stand rows that are not in the text.
#pragma once

#include <cstddef>
#include <vector>

namespace firstoff::gui {

class ProgramRows {
public:
    struct Extra {
        std::size_t line = 0;
        std::size_t rows = 0;  // beneath it
    };
    struct Place {
        std::size_t line = 0;
        std::size_t below = 0;  // 0: the line itself; n: the nth row beneath it
        friend bool operator==(const Place&, const Place&) = default;
    };

    // `extras` in order of line, each line once. Lines past `lines` are left out.
    void set(std::size_t lines, const std::vector<Extra>& extras);

    std::size_t count() const { return lines_ + (before_.empty() ? 0 : before_.back()); }
    std::size_t rowOf(std::size_t line) const;
    std::size_t below(std::size_t line) const;  // rows beneath it
    // Rows past the last are the last.
    Place at(std::size_t row) const;

private:
    std::size_t lines_ = 1;
    std::vector<std::size_t> held_;    // lines with rows beneath them
    std::vector<std::size_t> before_;  // rows beneath those and all earlier lines
};

}  // namespace firstoff::gui
