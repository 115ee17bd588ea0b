// How much a picture may cost.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace firstoff::gui {

enum class Quality : std::uint8_t {
    Plain,   // no shadows, one sample a pixel: for software OpenGL while things move
    Fine,    // shadows, edges smoothed
    Finest,  // soft shadows, occlusion between surfaces near each other, several samples a pixel
};
inline constexpr std::array<Quality, 3> kQualities{Quality::Plain, Quality::Fine, Quality::Finest};

// What a level buys.
struct QualityMeans {
    int samples = 1;         // a pixel; 1: edges are smoothed afterwards
    int shadowPx = 0;        // side of the shadow map; 0: none
    int shadowTaps = 0;      // of it for one pixel
    bool occlusion = false;  // in screen space, at half the resolution
};
constexpr QualityMeans meansOf(Quality quality) {
    switch (quality) {
        case Quality::Plain:
            return {};
        case Quality::Fine:
            return {1, 1024, 4, false};
        case Quality::Finest:
            return {4, 2048, 16, true};
    }
    return {};
}

// "plain" "fine" "finest"; nothing for other words.
std::optional<Quality> qualityNamed(std::string_view text);
const char* name(Quality quality);

}  // namespace firstoff::gui
