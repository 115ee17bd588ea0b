#include "gui/measures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/figures.h"
#include "sim/base/say.h"
#include "sim/base/told_apart.h"

namespace firstoff::gui {

namespace {

constexpr double kMmPerFoot = 12 * kMmPerInch;

}  // namespace

std::string told(const Figure& figure) {
    return fmt::format("{} {}", figure.value, figure.unit);
}

double roundedDown(double value, int decimals) {
    const double unit = std::pow(10.0, decimals);
    return std::floor(value * unit + 1e-6) / unit;
}

const char* Measures::unit() const {
    return inches_ ? afterBar(tr("unit|in")) : "mm";
}

Figure Measures::length(double mm) const {
    return {withDecimals(of(mm), inches_ ? 4 : 3), unit()};
}

Figure Measures::thickness(double mm) const {
    return {withDecimals(of(mm), inches_ ? 5 : 4), unit()};
}

Figure Measures::smallLength(double mm) const {
    return {fmt::format("{:+.{}f}", of(mm), inches_ ? 5 : 4), unit()};
}

Figure Measures::roughLength(double mm) const {
    return {withDecimals(of(mm), inches_ ? 1 : 0), unit()};
}

Figure Measures::gap(double mm) const {
    const int decimals = inches_ ? 4 : 2;
    return {withDecimals(roundedDown(of(mm), decimals), decimals), unit()};
}

Figure Measures::limit(double mm) const {
    if (inches_) return {fmt::format("{:.4f}", roundedDown(of(mm), 4)), unit()};
    return {fmt::format("{:g}", roundedDown(mm, 3)), unit()};
}

Figure Measures::atMost(double mm) const {
    const int decimals = inches_ ? 4 : 3;
    const double unit = std::pow(10.0, decimals);
    return {fmt::format("{:.{}f}", std::max(1.0, std::ceil(of(mm) * unit)) / unit, decimals), this->unit()};
}

std::string Measures::position(double diameterMm, double zMm) const {
    return fmt::format("X {}  Z {}", length(diameterMm).value, told(length(zMm)));
}

Figure Measures::feedPerRev(double mmPerRev) const {
    if (inches_) return {fmt::format("{:.4f}", of(mmPerRev)), tr("in/rev")};
    return {fmt::format("{:.3f}", mmPerRev), tr("mm/rev")};
}

Figure Measures::feedPerMinute(double mmPerMin) const {
    if (inches_) return {fmt::format("{:.2f}", of(mmPerMin)), tr("in/min")};
    return {wholeNumber(mmPerMin), "mm/min"};
}

Figure Measures::surfaceSpeed(double mPerMin) const {
    if (inches_) return {fmt::format("{:.0f}", 1000 * mPerMin / kMmPerFoot), tr("ft/min")};
    return {fmt::format("{:.0f}", mPerMin), "m/min"};
}

Figure Measures::chipArea(double mm2) const {
    if (inches_) return {fmt::format("{:.6f}", of(of(mm2))), tr("in²")};
    return {fmt::format("{:.4f}", mm2), "mm²"};
}

Figure Measures::removalRate(double mm3PerSecond) const {
    if (inches_) return {fmt::format("{:.2f}", 60 * of(of(of(mm3PerSecond)))), tr("in³/min")};
    return {fmt::format("{:.2f}", 0.06 * mm3PerSecond), "cm³/min"};
}

}  // namespace firstoff::gui
