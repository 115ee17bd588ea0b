// Pictures to files.
#pragma once

#include <filesystem>

#include "gui/gl/framebuffer.h"

namespace firstoff::gui {

// Writes a PNG beside `path` and renames it, so that there is never half a picture. Throws std::runtime_error with the
// path and the reason.
void savePng(const std::filesystem::path& path, const Image& image);

// Reads a PNG. Throws std::runtime_error with the path and the reason.
Image loadPng(const std::filesystem::path& path);

}  // namespace firstoff::gui
