// How colours look to eyes that lack one of the three kinds of cones, and how far apart two of them then are.
#pragma once

#include <array>
#include <cstdint>

#include "gui/colour.h"

namespace firstoff::gui {

enum class ColourVision : std::uint8_t { Common, WithoutRed, WithoutGreen, WithoutBlue };
inline constexpr std::array<ColourVision, 4> kColourVisions{ColourVision::Common, ColourVision::WithoutRed,
                                                            ColourVision::WithoutGreen, ColourVision::WithoutBlue};
const char* name(ColourVision vision);

// CIE L*a*b* for the white of sRGB (D65).
struct Lab {
    double l = 0, a = 0, b = 0;
};

// Model of G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color
// Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009), at severity 1; its matrices
// act on linear RGB.
Lab seenBy(ColourVision vision, Colour colour);

// CIEDE2000. About 1 is just seen where two fields touch. G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000
// Color-Difference Formula", Color Research and Application 30 (2005).
double differenceOf(Lab a, Lab b);

}  // namespace firstoff::gui
