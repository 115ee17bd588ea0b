#include "sim/base/language_choice.h"

#include <algorithm>
#include <cstdlib>

#include "sim/base/say.h"

namespace firstoff {

namespace {

const Language* languageOf(std::string_view code) {
    const auto found =
        std::find_if(languages().begin(), languages().end(), [&](const Language& one) { return code == one.code; });
    return found == languages().end() ? nullptr : &*found;
}

}  // namespace

bool isLanguage(std::string_view code) {
    return languageOf(code) != nullptr;
}

std::string languageCodesTold() {
    std::string codes;
    for (const Language& language : languages()) {
        if (!codes.empty()) codes += ", ";
        codes += language.code;
    }
    return codes;
}

std::string_view languageFor(std::string_view chosen, std::string_view asked) {
    for (const std::string_view wanted : {chosen, asked.substr(0, asked.find_first_of("_.@"))}) {
        if (const Language* language = languageOf(wanted)) return language->code;
    }
    return languages().front().code;
}

std::string_view languageAskedByEnvironment() {
    for (const char* variable : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
        const char* asked = std::getenv(variable);
        if (asked != nullptr && *asked != '\0') return asked;
    }
    return {};
}

}  // namespace firstoff
