#include "sim/output/xml_text.h"

#include <cstddef>
#include <cstdint>

namespace firstoff {

namespace {

// Bytes of the character that begins with this one; 0 where none does.
std::size_t lengthFrom(unsigned char first) {
    if (first < 0x80) return 1;
    if (first >= 0xc2 && first < 0xe0) return 2;
    if (first >= 0xe0 && first < 0xf0) return 3;
    if (first >= 0xf0 && first < 0xf5) return 4;
    return 0;
}

// Production 2 of XML 1.0, and no code that UTF-8 may not hold or would hold in fewer bytes.
bool isAllowed(std::uint32_t code, std::size_t bytes) {
    if (bytes == 3 && (code < 0x800 || (code >= 0xd800 && code < 0xe000) || code > 0xfffd)) return false;
    if (bytes == 4 && (code < 0x10000 || code > 0x10ffff)) return false;
    return code >= 0x20 || code == '\t' || code == '\n';
}

// Bytes of the allowed character that the text begins with; 0 if there is none.
std::size_t allowedAt(std::string_view text) {
    const auto first = static_cast<unsigned char>(text.front());
    const std::size_t bytes = lengthFrom(first);
    if (bytes == 0 || bytes > text.size()) return 0;
    std::uint32_t code = bytes == 1 ? first : first & (0x7fU >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        const auto next = static_cast<unsigned char>(text[i]);
        if ((next & 0xc0U) != 0x80) return 0;
        code = code << 6U | (next & 0x3fU);
    }
    return isAllowed(code, bytes) ? bytes : 0;
}

}  // namespace

std::string xmlText(std::string_view text) {
    std::string result;
    while (!text.empty()) {
        const std::size_t bytes = allowedAt(text);
        if (bytes == 0) {
            result += '?';
        } else if (text.front() == '&') {
            result += "&amp;";
        } else if (text.front() == '<') {
            result += "&lt;";
        } else if (text.front() == '>') {
            result += "&gt;";  // which may not stand behind two closing brackets
        } else {
            result += text.substr(0, bytes);
        }
        text.remove_prefix(bytes == 0 ? 1 : bytes);
    }
    return result;
}

}  // namespace firstoff
