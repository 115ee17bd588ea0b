// The pages that share the place below the program; in a low window the program itself is one of them.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace firstoff::gui {

enum class Tab : std::uint8_t {
    Program,
    Findings,
    Words,
    Lesson,
    Sizes,
    Cut,
    Time,
    Changes,
    Mistakes,
    Clearances,
    Bodies,
    Finish
};

// "sizes", "what-if", …: as settings, reports and the command line call it, whatever the language.
const char* nameOf(Tab tab);
// Nothing where no page is called so.
std::optional<Tab> tabNamed(std::string_view name);

}  // namespace firstoff::gui
