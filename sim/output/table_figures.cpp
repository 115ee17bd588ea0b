#include "sim/output/table_figures.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace firstoff {

void appendTableFigure(std::string& text, double value) {
    if (!std::isfinite(value)) return;
    const std::size_t begin = text.size();
    fmt::format_to(std::back_inserter(text), "{:.6f}", value);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    if (text.size() - begin == 2 && text.compare(begin, 2, "-0") == 0) text.replace(begin, 2, "0");
}

std::string tableFigure(double value) {
    std::string text;
    appendTableFigure(text, value);
    return text;
}

std::string durationInWords(double seconds) {
    const double tenths = std::round(seconds * 10) / 10;
    if (tenths < 60) return fmt::format("{:.1f} s", tenths);
    if (tenths < 3600) {
        const int minutes = static_cast<int>(tenths / 60);
        return fmt::format("{} min {:04.1f} s", minutes, tenths - 60 * minutes);
    }
    const long whole = std::lround(seconds);
    return fmt::format("{} h {:02} min {:02} s", whole / 3600, whole / 60 % 60, whole % 60);
}

std::size_t widthOf(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80; }));
}

std::string padded(std::string text, std::size_t width) {
    const std::size_t has = widthOf(text);
    if (has < width) text.append(width - has, ' ');
    return text;
}

std::string reportLabel(std::string label) {
    return padded(std::move(label), kReportLabel);
}

}  // namespace firstoff
