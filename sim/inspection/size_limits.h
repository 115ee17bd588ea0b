// The limits of a dimension: by its deviations, its class, or the general grade of the drawing.
#pragma once

#include <optional>
#include <string>

#include "sim/base/say.h"
#include "sim/setup/wanted_part.h"

namespace firstoff {

struct SizeLimits {
    double least = 0, most = 0;  // mm, diameters as such; Taper: rad
    std::string by;              // "h7 of ISO 286", "ISO 2768-m", "6g of ISO 965-1"; empty: deviations of its own
    bool fromMemory = false;     // as in Deviations
};

// Nothing, with `why` in plain words, where they are not known. Of a thread, the limits of its pitch diameter. `grade`:
// of WantedPart.
std::optional<SizeLimits> limitsOf(const WantedDimension& dimension, char grade, std::string& why);

// "Ø24 h7", "length 15", "M36x2 6g": as the papers call it, behind the name that the drawing gives it. With `later` for
// `word` it is English whatever the language, for what programs read.
std::string nameOf(const WantedDimension& dimension, const char* (*word)(const char*) = tr);

}  // namespace firstoff
