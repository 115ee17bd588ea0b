#include "gui/colour.h"

#include <algorithm>
#include <cmath>

namespace firstoff::gui {

namespace {

// WCAG 2.1, definition of relative luminance.
double linear(std::uint8_t channel) {
    const double c = channel / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

std::uint8_t between(std::uint8_t a, std::uint8_t b, double share) {
    return static_cast<std::uint8_t>(std::lround(a + share * (b - a)));
}

}  // namespace

double luminance(Colour colour) {
    return 0.2126 * linear(colour.r) + 0.7152 * linear(colour.g) + 0.0722 * linear(colour.b);
}

double contrast(Colour a, Colour b) {
    const auto [low, high] = std::minmax({luminance(a), luminance(b)});
    return (high + 0.05) / (low + 0.05);
}

Colour mixed(Colour a, Colour b, double share) {
    return {between(a.r, b.r, share), between(a.g, b.g, share), between(a.b, b.b, share)};
}

Colour inkOn(Colour ground) {
    const Colour white{255, 255, 255};
    const Colour black{};
    return contrast(white, ground) > contrast(black, ground) ? white : black;
}

Colour legible(Colour colour, Colour background, double ratio) {
    const Colour towards = inkOn(background);
    for (int step = 0; step <= 20; ++step) {
        const Colour tried = mixed(colour, towards, step / 20.0);
        if (contrast(tried, background) >= ratio) return tried;
    }
    return towards;
}

}  // namespace firstoff::gui
