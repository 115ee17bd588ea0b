// The report of a check for people at a terminal.
#pragma once

#include <string>
#include <string_view>

#include "sim/output/finding_words.h"
#include "sim/trial/trial.h"

namespace firstoff {

// Verdict, findings with the line they concern and what to do, times and volumes. `setupText`: the set-up file, to
// quote lines from; may be empty. Plain text, no escape codes; odd bytes of the files are shown as '?'.
std::string textReport(const Trial& trial, std::string_view setupText);

// The findings alone, for what could not be tried.
std::string textFindings(const std::vector<Finding>& findings, const Program& program, std::string_view setupName,
                         std::string_view setupText);

}  // namespace firstoff
