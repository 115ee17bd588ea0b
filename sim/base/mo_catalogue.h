// A compiled catalogue of texts: the MO format of GNU gettext (manual of GNU gettext 0.21, chapter "The Format of GNU
// MO Files"). Read in place; lookups search the sorted table.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace firstoff {

class MoCatalogue {
public:
    // `bytes` must outlive the catalogue. Not a catalogue of this machine's byte order, or cut short: empty.
    explicit MoCatalogue(std::span<const unsigned char> bytes);

    // Null where there is no such text, or none for it.
    const char* find(std::string_view english) const;
    std::uint32_t size() const { return count_; }
    std::string_view english(std::uint32_t index) const { return textAt(originals_, index); }
    std::string_view translation(std::uint32_t index) const { return textAt(translations_, index); }

private:
    std::uint32_t word(std::size_t at) const;
    std::string_view textAt(std::uint32_t table, std::uint32_t index) const;

    std::span<const unsigned char> bytes_;
    std::uint32_t count_ = 0, originals_ = 0, translations_ = 0;
};

}  // namespace firstoff
