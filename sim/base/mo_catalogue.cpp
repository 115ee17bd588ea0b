#include "sim/base/mo_catalogue.h"

#include <cstring>

namespace firstoff {

namespace {

constexpr std::uint32_t kMagic = 0x950412de;
constexpr std::size_t kHeader = 28;

}  // namespace

MoCatalogue::MoCatalogue(std::span<const unsigned char> bytes) : bytes_(bytes) {
    if (bytes.size() < kHeader || word(0) != kMagic) return;
    const std::uint32_t count = word(8);
    originals_ = word(12);
    translations_ = word(16);
    const auto fits = [&](std::uint64_t table) { return table + 8ull * count <= bytes.size(); };
    if (!fits(originals_) || !fits(translations_)) return;
    for (std::uint32_t i = 0; i < 2 * count; ++i) {
        const std::size_t entry = (i < count ? originals_ : translations_) + 8ull * (i % count);
        // Each text ends with a zero that its length does not count.
        const std::uint64_t end = std::uint64_t{word(entry + 4)} + word(entry);
        if (end >= bytes.size() || bytes[end] != 0) return;
    }
    count_ = count;
}

std::uint32_t MoCatalogue::word(std::size_t at) const {
    std::uint32_t value = 0;
    std::memcpy(&value, bytes_.data() + at, sizeof value);
    return value;
}

std::string_view MoCatalogue::textAt(std::uint32_t table, std::uint32_t index) const {
    const std::size_t entry = table + std::size_t{8} * index;
    return {reinterpret_cast<const char*>(bytes_.data()) + word(entry + 4), word(entry)};
}

const char* MoCatalogue::find(std::string_view english) const {
    std::uint32_t low = 0;
    std::uint32_t high = count_;
    while (low < high) {
        const std::uint32_t middle = low + (high - low) / 2;
        if (this->english(middle) < english) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    if (low == count_ || this->english(low) != english) return nullptr;
    const std::string_view text = translation(low);
    return text.empty() ? nullptr : text.data();
}

}  // namespace firstoff
