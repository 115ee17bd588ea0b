#include "gui/clearance_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/figures.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

// To so many decimals; a hundredth of nothing is allowed for what is a round figure but for rounding.
double roundedDown(double value, int decimals) {
    const double unit = std::pow(10.0, decimals);
    return std::floor(value * unit + 1e-6) / unit;
}

}  // namespace

std::string bodyTitle(const Trial& trial, int body) {
    const auto& all = trial.clearance.bodies;
    const auto index = static_cast<std::size_t>(body);
    return body >= 0 && all && index < all->bodies.size() ? all->bodies[index].name : tr("the billet");
}

std::string pairTitle(const Trial& trial, int body, int other) {
    return say("{} and {}", bodyTitle(trial, body), bodyTitle(trial, other));
}

std::string gapTitle(double gapMm, Units units) {
    if (!std::isfinite(gapMm)) return tr("nothing to hit");
    const int decimals = units == Units::Inches ? 4 : 2;
    if (gapMm <= -0.005) return say("touching, {:.{}f} {} deep", inUnits(-gapMm, units), decimals, unitOf(units));
    if (gapMm <= 0) return tr("touching");
    return fmt::format("{:.{}f} {}", roundedDown(inUnits(gapMm, units), decimals), decimals, unitOf(units));
}

std::string placeTitle(SpacePoint place, Point datum, Units units) {
    const std::string x = length(2 * (place.r - datum.r), units).value, z = length(place.z - datum.z, units).value;
    const std::string y = std::abs(place.y) >= 0.05 ? fmt::format("  Y {}", length(place.y, units).value) : "";
    return fmt::format("X {}  Z {}{} {}", x, z, y, unitOf(units));
}

std::string marginTitle(const Margin& margin, double factor, Units units) {
    const double most = inUnits(factor * kMarginLimit, units);
    const int whole = units == Units::Inches ? 1 : 0;
    if (margin.mm >= kMarginLimit) return fmt::format(">{:.{}f}", roundedDown(most, whole), whole);
    const double value = std::max(0.0, inUnits(factor * margin.mm, units));
    const int fine = units == Units::Inches ? 3 : 2;
    const double finely = roundedDown(value, fine);
    return finely < 9.995 ? fmt::format("{:.{}f}", finely, fine)
                          : fmt::format("{:.{}f}", roundedDown(value, fine - 1), fine - 1);
}

}  // namespace firstoff::gui
