#include "sim/base/say.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <iterator>

#include "sim/base/language_catalogues.h"
#include "sim/base/mo_catalogue.h"

namespace firstoff {

namespace {

constexpr std::array<Language, 2> kLanguages{{{"en", "English"}, {"de", "Deutsch"}}};

std::atomic<std::size_t> inUse{0};

// Null for English.
const MoCatalogue* catalogue() {
    static const MoCatalogue german{germanCatalogue()};
    return inUse.load(std::memory_order_relaxed) == 1 ? &german : nullptr;
}

}  // namespace

const char* tr(const char* english) {
    const MoCatalogue* texts = catalogue();
    // The empty text is the key of the catalogue's own header.
    if (texts == nullptr || *english == '\0') return english;
    const char* found = texts->find(english);
    return found != nullptr ? found : english;
}

std::string sayFormatted(fmt::string_view english, fmt::format_args args) {
    if (const MoCatalogue* texts = catalogue()) {
        // A text of the catalogue that does not fit its figures is a slip of ours; tests hold all of them.
        if (const char* found = texts->find({english.data(), english.size()})) return fmt::vformat(found, args);
    }
    return fmt::vformat(english, args);
}

std::span<const Language> languages() {
    return kLanguages;
}

bool useLanguage(std::string_view code) {
    const auto* found =
        std::find_if(kLanguages.begin(), kLanguages.end(), [&](const Language& l) { return l.code == code; });
    if (found == kLanguages.end()) return false;
    inUse.store(static_cast<std::size_t>(std::distance(kLanguages.begin(), found)), std::memory_order_relaxed);
    return true;
}

std::string_view languageInUse() {
    return kLanguages[inUse.load(std::memory_order_relaxed)].code;
}

}  // namespace firstoff
