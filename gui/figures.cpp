#include "gui/figures.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>

#include "sim/base/say.h"
#include "sim/base/told_apart.h"
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

// Never a nought with a sign.
std::string withDecimals(double value, int decimals) {
    if (std::abs(value) < 0.5 * std::pow(10.0, -decimals)) value = 0;
    return fmt::format("{:.{}f}", value, decimals);
}

}  // namespace

std::string clockTime(double seconds) {
    return clockTime(seconds, 2);
}

std::string tickTime(double seconds, double stepS) {
    const int decimals = stepS >= 1 ? 0 : std::min(6, static_cast<int>(std::ceil(-std::log10(stepS) - 1e-9)));
    return clockTime(seconds, decimals);
}

std::string millimetres(double mm) {
    return withDecimals(mm, 3);
}

const char* unitOf(Units units) {
    return units == Units::Inches ? afterBar(tr("unit|in")) : "mm";
}

std::string told(const Figure& figure) {
    return fmt::format("{} {}", figure.value, figure.unit);
}

Figure length(double mm, Units units) {
    return {withDecimals(inUnits(mm, units), units == Units::Inches ? 4 : 3), unitOf(units)};
}

Figure smallLength(double mm, Units units) {
    return {fmt::format("{:+.{}f}", inUnits(mm, units), units == Units::Inches ? 5 : 4), unitOf(units)};
}

Figure roughLength(double mm, Units units) {
    return {withDecimals(inUnits(mm, units), units == Units::Inches ? 1 : 0), unitOf(units)};
}

Figure roundLength(double mm, Units units) {
    if (units == Units::Millimetres) return {fmt::format("{:.3g}", mm), unitOf(units)};
    return {fmt::format("{:.4f}", std::floor(inUnits(mm, units) * 1e4 + 1e-6) / 1e4), unitOf(units)};
}

std::string position(double diameterMm, double zMm, Units units) {
    return fmt::format("X {}  Z {}", length(diameterMm, units).value, told(length(zMm, units)));
}

Figure feedPerRev(double mmPerRev, Units units) {
    if (units == Units::Inches) return {fmt::format("{:.4f}", mmPerRev / kMmPerInch), tr("in/rev")};
    return {fmt::format("{:.3f}", mmPerRev), tr("mm/rev")};
}

Figure feedPerMinute(double mmPerMin, Units units) {
    if (units == Units::Inches) return {fmt::format("{:.2f}", mmPerMin / kMmPerInch), tr("in/min")};
    return {wholeNumber(mmPerMin), "mm/min"};
}

Figure surfaceSpeed(double mPerMin, Units units) {
    if (units == Units::Inches) return {fmt::format("{:.0f}", 1000 * mPerMin / kMmPerFoot), tr("ft/min")};
    return {fmt::format("{:.0f}", mPerMin), "m/min"};
}

Figure chipArea(double mm2, Units units) {
    if (units == Units::Inches) return {fmt::format("{:.6f}", mm2 / (kMmPerInch * kMmPerInch)), tr("in²")};
    return {fmt::format("{:.4f}", mm2), "mm²"};
}

Figure removalRate(double mm3PerSecond, Units units) {
    constexpr double kInch3 = kMmPerInch * kMmPerInch * kMmPerInch;
    if (units == Units::Inches) return {fmt::format("{:.2f}", 60 * mm3PerSecond / kInch3), tr("in³/min")};
    return {fmt::format("{:.2f}", 0.06 * mm3PerSecond), "cm³/min"};
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
