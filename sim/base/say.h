// Texts for people, in the language they chose.
//
// The English text stands where it is used and is its own key; other languages are catalogues in the PO format of GNU
// gettext under assets/languages. A text that a catalogue does not have is told in English. What programs read (JSON,
// CSV, codes of findings, keys of the set-up) is never translated, and figures keep their decimal point, as a control
// writes them.
//
//   say("{} of {} dimensions are out.", out, all)   formatted; the English is checked when it is compiled
//   tr("Open program…")                             as it is
//   later("rough along Z")                          in a table: marks the text for the catalogue, translated by
//                                                   tr(row.meaning) where it is used
#pragma once

#include <fmt/format.h>

#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace firstoff {

// The text in the chosen language. The pointer stays good for ever.
const char* tr(const char* english);

constexpr const char* later(const char* english) {
    return english;
}

std::string sayFormatted(fmt::string_view english, fmt::format_args args);

template <class... Args>
[[nodiscard]] std::string say(fmt::format_string<Args...> english, Args&&... args) {
    const fmt::string_view text = english;
    return sayFormatted(text, fmt::make_format_args(args...));
}

struct Language {
    const char* code;  // ISO 639-1
    const char* name;  // in that language
};

// English first.
std::span<const Language> languages();

// From now on texts are told in this language, everywhere; what was made before stays as it is. Not known: false, and
// nothing changes. To be called while no other thread makes texts.
bool useLanguage(std::string_view code);
std::string_view languageInUse();

// While it lives, texts are told in `code`; for what must stay as it is whatever the user chose, and for tests.
class LanguageForNow {
public:
    explicit LanguageForNow(std::string_view code) : before_(languageInUse()) { useLanguage(code); }
    ~LanguageForNow() { useLanguage(before_); }
    LanguageForNow(const LanguageForNow&) = delete;
    LanguageForNow& operator=(const LanguageForNow&) = delete;

private:
    std::string before_;
};

}  // namespace firstoff
