#include "gui/clearance_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"

namespace firstoff::gui {

std::string bodyTitle(const Trial& trial, int body) {
    const auto& all = trial.clearance.bodies;
    const auto index = static_cast<std::size_t>(body);
    return body >= 0 && all && index < all->bodies.size() ? all->bodies[index].name : tr("the billet");
}

std::string pairTitle(const Trial& trial, int body, int other) {
    return say("{} and {}", bodyTitle(trial, body), bodyTitle(trial, other));
}

std::string gapTitle(double gapMm, Measures measures) {
    if (!std::isfinite(gapMm)) return tr("nothing to hit");
    if (gapMm <= -0.01) return say("touching, {} deep", told(measures.gap(-gapMm)));
    if (gapMm <= 0) return tr("touching");
    return told(measures.gap(gapMm));
}

std::string placeTitle(SpacePoint place, Point datum, Measures measures) {
    const std::string x = measures.length(2 * (place.r - datum.r)).value, z = measures.length(place.z - datum.z).value;
    const std::string y = std::abs(place.y) >= 0.05 ? fmt::format("  Y {}", measures.length(place.y).value) : "";
    return fmt::format("X {}  Z {}{} {}", x, z, y, measures.unit());
}

std::string marginTitle(const Margin& margin, double factor, Measures measures) {
    const double most = measures.of(factor * kMarginLimit);
    const int whole = measures.inches() ? 1 : 0;
    if (margin.mm >= kMarginLimit) return fmt::format(">{:.{}f}", roundedDown(most, whole), whole);
    const double value = std::max(0.0, measures.of(factor * margin.mm));
    const int fine = measures.inches() ? 3 : 2;
    const double finely = roundedDown(value, fine);
    return finely < 9.995 ? fmt::format("{:.{}f}", finely, fine)
                          : fmt::format("{:.{}f}", roundedDown(value, fine - 1), fine - 1);
}

}  // namespace firstoff::gui
