// Sentences broken into lines for a terminal.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace firstoff {

// `text` in lines of at most `wide` bytes where its blanks allow it, all but the first after `indent` blanks.
std::string wrappedLines(std::string_view text, std::size_t wide, std::size_t indent);

}  // namespace firstoff
