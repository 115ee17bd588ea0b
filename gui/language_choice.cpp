#include "gui/language_choice.h"

#include <cstdlib>

#include "sim/base/say.h"

namespace firstoff::gui {

std::string_view languageFor(std::string_view chosen, std::string_view asked) {
    for (const std::string_view wanted : {chosen, asked.substr(0, 2)}) {
        for (const Language& language : languages()) {
            if (wanted == language.code) return language.code;
        }
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

}  // namespace firstoff::gui
