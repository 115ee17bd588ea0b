// One English word that is several in other languages ("Close" a window, "Close" to the cut) stands in the catalogue
// with what it is about before a bar, "view|Close", so that it can be told apart there. What is shown follows the bar.
#pragma once

#include <string_view>

namespace firstoff {

constexpr const char* afterBar(const char* text) {
    const std::size_t bar = std::string_view(text).find('|');
    return bar == std::string_view::npos ? text : text + bar + 1;
}

}  // namespace firstoff
