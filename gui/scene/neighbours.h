// What is done with bodies that stand between the eye and the cut.
#pragma once

#include <cstdint>

namespace firstoff::gui {

enum class Neighbours : std::uint8_t { Solid, Faded, LeftOut };

}  // namespace firstoff::gui
