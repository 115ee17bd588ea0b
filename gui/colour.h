// Colours and how well one reads on another.
#pragma once

#include <cstdint>

namespace firstoff::gui {

// sRGB, 0–255 each.
struct Colour {
    std::uint8_t r = 0, g = 0, b = 0;
    friend constexpr bool operator==(Colour, Colour) = default;
};

constexpr Colour hex(std::uint32_t rgb) {
    return {static_cast<std::uint8_t>(rgb >> 16), static_cast<std::uint8_t>(rgb >> 8), static_cast<std::uint8_t>(rgb)};
}

// For the drawing library: alpha 0…1.
constexpr std::uint32_t packed(Colour c, float alpha = 1.0f) {
    const auto a = static_cast<std::uint32_t>(alpha * 255.0f + 0.5f);
    return a << 24 | std::uint32_t{c.b} << 16 | std::uint32_t{c.g} << 8 | std::uint32_t{c.r};
}

// WCAG 2.1: relative luminance 0…1 and contrast ratio 1…21.
double luminance(Colour colour);
double contrast(Colour a, Colour b);

// `share` 0: a, 1: b.
Colour mixed(Colour a, Colour b, double share);

// Black or white, whichever reads better on `ground`.
Colour inkOn(Colour ground);

// `colour`, moved towards black or white just so far that it has at least `ratio` on `background`.
Colour legible(Colour colour, Colour background, double ratio);

}  // namespace firstoff::gui
