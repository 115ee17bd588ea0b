#include "gui/scene/quality.h"

#include "sim/base/say.h"

namespace firstoff::gui {

namespace {
constexpr std::array<const char*, 3> kNames{later("plain"), later("fine"), later("finest")};
}

std::optional<Quality> qualityNamed(std::string_view text) {
    for (std::size_t i = 0; i < kNames.size(); ++i) {
        if (text == kNames[i]) return static_cast<Quality>(i);
    }
    return std::nullopt;
}

const char* name(Quality quality) {
    return kNames[static_cast<std::size_t>(quality)];
}

}  // namespace firstoff::gui
