#include "gui/wrapped_text.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

float widthOf(const ImFont& font, std::string_view text) {
    return font.CalcTextSizeA(font.FontSize, 1e9f, 0, text.data(), text.data() + text.size()).x;
}

}  // namespace

std::string wrapped(const ImFont& font, float width, std::string_view text) {
    const float space = widthOf(font, " ");
    std::string out;
    float used = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" \n"), text.size());
        const std::string_view word = text.substr(0, end);
        const float needed = widthOf(font, word);
        const bool first = out.empty() || out.back() == '\n';
        if (!first && used + space + needed > width) {
            out += '\n';
            used = needed;
        } else {
            if (!first) out += ' ';
            used += needed + (first ? 0 : space);
        }
        out += word;
        if (end < text.size() && text[end] == '\n') {
            out += '\n';
            used = 0;
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

std::string fitted(const ImFont& font, float width, std::string_view text) {
    if (widthOf(font, text) <= width) return std::string(text);
    const auto continues = [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) == 0x80; };
    const float dots = widthOf(font, "\u2026");
    while (!text.empty() && (continues(text.back()) || text.back() == ' ' || widthOf(font, text) + dots > width))
        text.remove_suffix(1);
    // What began a character that went goes as well.
    if (!text.empty() && static_cast<unsigned char>(text.back()) >= 0xC0u) text.remove_suffix(1);
    return std::string(text) + "\u2026";
}

float heightOf(const ImFont& font, std::string_view text) {
    if (text.empty()) return 0;
    return font.FontSize * static_cast<float>(1 + std::count(text.begin(), text.end(), '\n'));
}

}  // namespace firstoff::gui
