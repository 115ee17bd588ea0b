// The colours of the picture, as 0xRRGGBB.
#pragma once

#include <array>
#include <cstdint>

namespace firstoff::gui::palette {

inline constexpr std::uint32_t kBlackBar = 0x6f6862;  // rolled or drawn bar, as bought
inline constexpr std::uint32_t kCutSteel = 0xd9dde2;  // fresh from the tool
inline constexpr std::uint32_t kChuck = 0x9aa1a9;
inline constexpr std::uint32_t kJaw = 0x7d848d;
inline constexpr std::uint32_t kTurret = 0x949ba3;
inline constexpr std::uint32_t kBlock = 0x565c65;
inline constexpr std::uint32_t kHolder = 0x3a3e45;  // black oxide
inline constexpr std::uint32_t kInsertGold = 0xe0b44a;
inline constexpr std::uint32_t kCarbide = 0x6d7078;
inline constexpr std::uint32_t kDrillSteel = 0xb4b8be;
inline constexpr std::uint32_t kQuill = 0xb4bac2;
inline constexpr std::uint32_t kCentre = 0xc6ccd4;
inline constexpr std::uint32_t kHeadstock = 0x5d6f75;
inline constexpr std::uint32_t kSection = 0xd6a487;  // the face of a cutaway

// What sizes come to: bluish green, made calmer; orange; blue, of the palette below. Hatching says it as well.
inline constexpr std::uint32_t kWithinLimits = 0x7cc4ab;
inline constexpr std::uint32_t kTooSmall = 0xe69f00;
inline constexpr std::uint32_t kTooLarge = 0x3f9ad6;
inline constexpr std::uint32_t kNotMeasured = 0x84888d;

// M. Okabe and K. Ito, "Color Universal Design" (2008): told apart with the three common deficiencies of colour vision.
// Their black is replaced by a grey, which shows on a dark background as well.
inline constexpr std::array<std::uint32_t, 8> kStations = {0xe69f00, 0x56b4e9, 0x009e73, 0xf0e442,
                                                           0x0072b2, 0xd55e00, 0xcc79a7, 0x707070};

}  // namespace firstoff::gui::palette
