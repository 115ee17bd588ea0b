// Pictures against ones that somebody has looked at.
#pragma once

#include <string>

#include "gui/gl/framebuffer.h"

namespace firstoff::gui {

// Compares with tests/golden/NAME.png, or renews that when FIRSTOFF_RENEW_GOLDEN is set. Where they differ, the picture
// and the difference are left in the build folder.
void expectGolden(const std::string& name, const Image& actual);

}  // namespace firstoff::gui
