#include "gui/figures.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>

#include "sim/cutting/profile_plot.h"

namespace firstoff::gui {

namespace {

std::string clockTime(double seconds, int decimals) {
    const double unit = std::pow(10.0, decimals);
    const auto ticks = static_cast<std::int64_t>(std::llround(std::max(0.0, seconds) * unit));
    const auto perSecond = static_cast<std::int64_t>(unit);
    const std::int64_t whole = ticks / perSecond;
    const std::int64_t hours = whole / 3600;
    const std::int64_t minutes = whole / 60 % 60;
    std::string text = hours > 0 ? fmt::format("{}:{:02}", hours, minutes) : fmt::format("{}", minutes);
    text += fmt::format(":{:02}", whole % 60);
    if (decimals > 0) text += fmt::format(".{:0{}}", ticks % perSecond, decimals);
    return text;
}

}  // namespace

std::string clockTime(double seconds) {
    return clockTime(seconds, 2);
}

std::string tickTime(double seconds, double stepS) {
    const int decimals = stepS >= 1 ? 0 : std::min(6, static_cast<int>(std::ceil(-std::log10(stepS) - 1e-9)));
    return clockTime(seconds, decimals);
}

std::string withDecimals(double value, int decimals) {
    if (std::abs(value) < 0.5 * std::pow(10.0, -decimals)) value = 0;
    return fmt::format("{:.{}f}", value, decimals);
}

std::string wholeNumber(double value) {
    std::string text = fmt::format("{:.0f}", std::abs(value) < 0.5 ? 0.0 : value);
    const std::size_t sign = text.front() == '-' ? 1 : 0;
    if (text.size() - sign < 5) return text;
    for (std::size_t at = text.size() - 3; at > sign; at = at > 3 ? at - 3 : 0) text.insert(at, "\u2009");
    return text;
}

double niceStep(double least) {
    return least > 0 ? tickStep(least) : 1;
}

}  // namespace firstoff::gui
