// What the half-section shows; part of the settings that are kept.
#pragma once

#include <cstdint>

namespace firstoff::gui {

struct SectionSettings {
    enum class Shown : std::uint8_t { PictureOnly, Both, SectionOnly };
    Shown shown = Shown::PictureOnly;
    float share = 0.5f;  // of the height, where both are shown
    bool paths = true;
    bool sizes = false;
    bool drawing = false;  // the drawn outline with deviations
    int magnified = 50;    // how much the deviations are

    friend bool operator==(const SectionSettings&, const SectionSettings&) = default;
};

}  // namespace firstoff::gui
