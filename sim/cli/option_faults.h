// What is wrong with the words of a command, in the user's language.
#pragma once

#include <string>
#include <string_view>

namespace firstoff {

// `told` is what the library that reads commands (CLI11) says, in English; what is not known of it comes back as it is.
std::string optionFault(std::string_view told);

}  // namespace firstoff
