// Colours of surfaces by the turret station whose tool left them, as 0xRRGGBB.
//
// M. Okabe and K. Ito, "Color Universal Design" (2008): told apart with the three common deficiencies of colour vision.
// Their black is replaced by a grey, which shows on a dark background as well.
#pragma once

#include <array>
#include <cstdint>

namespace firstoff {

inline constexpr std::array<std::uint32_t, 8> kStationColours = {0xe69f00, 0x56b4e9, 0x009e73, 0xf0e442,
                                                                 0x0072b2, 0xd55e00, 0xcc79a7, 0x9a9a9a};
inline constexpr std::uint32_t kCutBeforeColour = 0xb9bec4;  // by the trial that left this blank
inline constexpr std::uint32_t kUncutColour = 0x6f6862;  // rolled or drawn bar, as bought

constexpr std::uint32_t stationColour(int station) {
    const auto count = static_cast<int>(kStationColours.size());
    return kStationColours[static_cast<std::size_t>(((station < 1 ? 1 : station) - 1) % count)];
}

}  // namespace firstoff
