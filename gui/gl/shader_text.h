// GLSL sources, embedded when the program was built.
#pragma once

#include <string_view>

namespace firstoff::gui {

// Text of the file `name` in shaders/, e.g. "metal.frag"; empty when there is none.
std::string_view shaderText(std::string_view name);

}  // namespace firstoff::gui
