// Numbers as tables and reports write them: point as decimal mark whatever the locale, no needless zeros.
#pragma once

#include <cstddef>
#include <string>

namespace firstoff {

// Fixed notation to a millionth, trailing zeros dropped, never "-0". Not a finite number: empty.
void appendTableFigure(std::string& text, double value);
std::string tableFigure(double value);

// "48.2 s", "3 min 12.4 s", "1 h 02 min 05 s".
std::string durationInWords(double seconds);

// Columns that a text takes as people see them: a letter of several bytes is one.
std::size_t widthOf(const std::string& text);
// With blanks behind it up to that width.
std::string padded(std::string text, std::size_t width);

// What stands before a figure in the report for a terminal, with blanks up to a column of its own.
inline constexpr std::size_t kReportLabel = 14;
std::string reportLabel(std::string label);

}  // namespace firstoff
