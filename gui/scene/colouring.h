// What the colour of a cut surface tells.
#pragma once

#include <cstdint>

namespace firstoff::gui {

enum class Colouring : std::uint8_t {
    Metal,  // how fine it is
    Tool,   // which station cut it, see stationColour()
    Size,   // what the sizes taken on it come to, see MeasuredSurfaces
};

}  // namespace firstoff::gui
