#include "gui/clearance_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/figures.h"
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

std::string gapTitle(double gapMm) {
    if (!std::isfinite(gapMm)) return tr("nothing to hit");
    if (gapMm <= -0.005) return say("touching, {:.2f} mm deep", -gapMm);
    if (gapMm <= 0) return tr("touching");
    // Rounded down: never told larger than it is.
    return fmt::format("{:.2f} mm", std::floor(gapMm * 100 + 1e-6) / 100);
}

std::string placeTitle(SpacePoint place, Point datum) {
    std::string text = fmt::format("X {}  Z {}", millimetres(2 * (place.r - datum.r)), millimetres(place.z - datum.z));
    if (std::abs(place.y) >= 0.05) text += fmt::format("  Y {}", millimetres(place.y));
    return text;
}

std::string marginTitle(const Margin& margin, double factor) {
    if (margin.mm >= kMarginLimit) return fmt::format(">{:.0f}", factor * kMarginLimit);
    const double told = std::max(0.0, std::floor(factor * margin.mm * 100 + 1e-6) / 100);
    return told < 9.995 ? fmt::format("{:.2f}", told) : fmt::format("{:.1f}", std::floor(told * 10 + 1e-6) / 10);
}

}  // namespace firstoff::gui
