// Which language the programs speak.
#pragma once

#include <string>
#include <string_view>

namespace firstoff {

// "de": a code of languages().
bool isLanguage(std::string_view code);
// "en, de": all of them, for what is told of a wrong one.
std::string languageCodesTold();

// `chosen` where it is a code of languages(); else what `asked` names, a locale such as "de_DE.UTF-8", where that is
// one: its word before the country, the character set and the variant (POSIX, "Environment Variables"); else English.
std::string_view languageFor(std::string_view chosen, std::string_view asked);

// What the environment asks for: the first of LC_ALL, LC_MESSAGES and LANG that is set to something (POSIX,
// "Environment Variables"). Empty: none of them is.
std::string_view languageAskedByEnvironment();

}  // namespace firstoff
