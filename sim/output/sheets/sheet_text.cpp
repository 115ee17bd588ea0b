#include "sim/output/sheets/sheet_text.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "sim/output/finding_words.h"

namespace firstoff {

namespace {

constexpr std::string_view kFigureSpace = "\u2007", kPointSpace = "\u2008";

struct Decimals {
    bool point = false;
    std::size_t count = 0;
};

// Of a cell that ends in a figure.
std::optional<Decimals> decimalsOf(std::string_view cell) {
    const auto isDigit = [](char c) { return c >= '0' && c <= '9'; };
    if (cell.empty() || !isDigit(cell.back()) || !(isDigit(cell.front()) || cell.front() == '-')) return std::nullopt;
    std::size_t digits = 0;
    while (digits < cell.size() && isDigit(cell[cell.size() - 1 - digits])) ++digits;
    const bool point = digits < cell.size() && cell[cell.size() - 1 - digits] == '.';
    return Decimals{point, point ? digits : 0};
}

}  // namespace

std::string figure(double value, int decimals) {
    if (!std::isfinite(value)) return "–";
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
    return text;
}

std::string shortFigure(double value, int mostDecimals) {
    std::string text = figure(value, mostDecimals);
    if (text.find('.') == std::string::npos) return text;
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string shortened(std::string_view text, std::size_t characters) {
    std::size_t seen = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (continuesPoint(text[i])) continue;
        if (seen + 1 == characters) {
            // Room for one more: the last, or the dots.
            std::size_t next = i + 1;
            while (next < text.size() && continuesPoint(text[next])) ++next;
            return next == text.size() ? std::string(text) : std::string(text.substr(0, i)) + "…";
        }
        ++seen;
    }
    return std::string(text);
}

std::vector<std::string> onThePoint(const std::vector<std::string>& cells) {
    Decimals most;
    for (const std::string& cell : cells) {
        const std::optional<Decimals> own = decimalsOf(cell);
        if (!own) continue;
        most.point = most.point || own->point;
        most.count = std::max(most.count, own->count);
    }
    std::vector<std::string> result = cells;
    for (std::string& cell : result) {
        const std::optional<Decimals> own = decimalsOf(cell);
        if (!own) continue;
        if (most.point && !own->point) cell += kPointSpace;
        for (std::size_t i = own->count; i < most.count; ++i) cell += kFigureSpace;
    }
    return result;
}

}  // namespace firstoff
