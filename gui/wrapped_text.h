// Text broken into lines at spaces only. The drawing library breaks behind full stops as well, which tears figures
// apart.
#pragma once

#include <imgui.h>

#include <string>
#include <string_view>

namespace firstoff::gui {

// `text` with line ends put in so that no line is wider than `width` px, save a single word that is.
std::string wrapped(const ImFont& font, float width, std::string_view text);

// One line of `text` with its end left out for "…" where it is wider than `width` px.
std::string fitted(const ImFont& font, float width, std::string_view text);

// Height of text with line ends, px.
float heightOf(const ImFont& font, std::string_view text);

}  // namespace firstoff::gui
