// The table of codes as assets/language.md prints it.
#pragma once

#include <string>

namespace firstoff {

// Markdown, a row for each code: its number in code systems A, B and C, and what it orders. Codes that the table knows
// but the control does not carry out say so.
std::string languageTable();

}  // namespace firstoff
