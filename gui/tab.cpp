#include "gui/tab.h"

#include <iterator>

namespace firstoff::gui {

namespace {

// In order of Tab.
constexpr const char* kNames[] = {"program", "findings", "words",    "lessons",    "sizes",  "cut",
                                  "time",    "what-if",  "mistakes", "clearances", "bodies", "finish"};
static_assert(std::size(kNames) == static_cast<std::size_t>(Tab::Finish) + 1);

}  // namespace

const char* nameOf(Tab tab) {
    return kNames[static_cast<std::size_t>(tab)];
}

std::optional<Tab> tabNamed(std::string_view name) {
    for (std::size_t i = 0; i < std::size(kNames); ++i) {
        if (name == kNames[i]) return static_cast<Tab>(i);
    }
    return std::nullopt;
}

}  // namespace firstoff::gui
