// Which language the window speaks.
#pragma once

#include <string_view>

namespace firstoff::gui {

// A code of languages(): `chosen` where it is one; else the first two letters of `asked`, such as "de_DE.UTF-8", where
// they are one; else English.
std::string_view languageFor(std::string_view chosen, std::string_view asked);

// What the environment asks for: the first of LC_ALL, LC_MESSAGES and LANG that is set to something (POSIX,
// "Environment Variables"). Empty: none of them is.
std::string_view languageAskedByEnvironment();

}  // namespace firstoff::gui
