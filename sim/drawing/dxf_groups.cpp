#include "sim/drawing/dxf_groups.h"

#include <charconv>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

constexpr int kRemark = 999;

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlanks = " \t\r\f\v";
    const std::size_t begin = text.find_first_not_of(kBlanks);
    if (begin == std::string_view::npos) return {};
    return text.substr(begin, text.find_last_not_of(kBlanks) - begin + 1);
}

std::string_view withoutPlus(std::string_view text) {
    if (text.size() > 1 && text.front() == '+' && text[1] != '-') text.remove_prefix(1);
    return text;
}

template <typename Number>
std::optional<Number> wholeText(std::string_view text) {
    text = withoutPlus(trimmed(text));
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return value;
}

}  // namespace

std::optional<double> drawnNumber(std::string_view text) {
    const auto value = wholeText<double>(text);
    if (!value || !std::isfinite(*value)) return std::nullopt;
    return value;
}

std::optional<long> drawnWhole(std::string_view text) {
    return wholeText<long>(text);
}

DxfGroups::DxfGroups(std::string_view text) : rest_(text) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (rest_.starts_with(kByteOrderMark)) rest_.remove_prefix(kByteOrderMark.size());
}

std::optional<std::string_view> DxfGroups::nextLine() {
    if (rest_.empty()) return std::nullopt;
    const std::size_t end = rest_.find('\n');
    const std::string_view line = rest_.substr(0, end);
    rest_ = end == std::string_view::npos ? std::string_view() : rest_.substr(end + 1);
    ++line_;
    return trimmed(line);
}

std::optional<DxfGroup> DxfGroups::next() {
    while (!broken_) {
        const auto codeLine = nextLine();
        if (!codeLine) return std::nullopt;
        const auto code = drawnWhole(*codeLine);
        if (codeLine->empty() && rest_.find_first_not_of(" \t\r\n") == std::string_view::npos) return std::nullopt;
        constexpr long kLargestCode = 1071;
        if (!code || *code < -5 || *code > kLargestCode) {
            broken_ = true;
            return std::nullopt;
        }
        const auto value = nextLine();
        if (!value) return std::nullopt;
        if (*code != kRemark) return DxfGroup{static_cast<int>(*code), *value, line_};
    }
    return std::nullopt;
}

const DxfGroup* DxfThing::find(int code) const {
    for (const DxfGroup& group : groups) {
        if (group.code == code) return &group;
    }
    return nullptr;
}

std::string_view DxfThing::text(int code) const {
    const DxfGroup* group = find(code);
    return group ? group->value : std::string_view();
}

long DxfThing::whole(int code, long otherwise) const {
    const DxfGroup* group = find(code);
    return group ? drawnWhole(group->value).value_or(otherwise) : otherwise;
}

std::optional<double> DxfThing::number(int code) const {
    const DxfGroup* group = find(code);
    return group ? drawnNumber(group->value) : std::nullopt;
}

double DxfThing::number(int code, double otherwise) const {
    const DxfGroup* group = find(code);
    if (group == nullptr) return otherwise;
    return drawnNumber(group->value).value_or(std::numeric_limits<double>::quiet_NaN());
}

}  // namespace firstoff
