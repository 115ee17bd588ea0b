// Findings and verdicts in words, and texts of users made fit to be shown: shared by the terminal and the papers.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

// Whether a byte goes on with a character of UTF-8 rather than beginning one.
bool continuesPoint(char c);

// Control characters, of one byte or of two (C2 80 to C2 9F), and such as turn the direction of text must not reach a
// terminal or a paper; nor must bytes that are no text. They become question marks, tabs spaces.
std::string plainText(std::string_view bytes);

// A line of a text, counted from 1, without its end; empty where there is none.
std::string_view lineOf(std::string_view text, std::uint32_t line);

// "set-up job.toml, line 12 column 3, at 48.2 s"; empty for a finding that belongs nowhere.
std::string whereOf(const Finding& finding, const Program& program, std::string_view setupName);

// "CLEAR: every block was understood …", and in the same line what was not reckoned.
std::string verdictInWords(const Trial& trial);

// What of loads and holding a verdict says nothing of, and why: "forces: what the bar is made of is not known; grip".
// Empty where all was reckoned.
std::string notReckonedInWords(const Trial& trial);

// "1 stop, 0 warnings, 2 notes"
std::string findingCounts(const std::vector<Finding>& findings);

// What a verdict does not replace; stands wherever one is shown.
std::string_view standingCaution();

}  // namespace firstoff
