// The reference as text for a terminal.
#pragma once

#include <string>
#include <string_view>

#include "sim/plain_words/code_reference.h"

namespace firstoff {

// The rows that have all of `words`, the best first, each with its letters and its example; part by part under headings
// where there are no words. Says so where nothing is found.
std::string referenceText(const CodeReference& reference, std::string_view words);

}  // namespace firstoff
