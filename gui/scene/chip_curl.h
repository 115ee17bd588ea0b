// One chip as it curls off the rake face, see chip_shape.h: how it curls, when it breaks, and its mesh.
#pragma once

#include <cstdint>

#include "gui/gl/triangle_mesh.h"
#include "gui/scene/chip_cut.h"

namespace firstoff::gui {

// 0 to 1, the same for the same numbers; about 0: -1 to 1.
float drawn(std::uint32_t a, std::uint32_t b);
inline float drawnAbout0(std::uint32_t a, std::uint32_t b) {
    return 2 * drawn(a, b) - 1;
}

// How a chip curls and when it breaks.
struct Curl {
    float radius = 2;    // mm, of its free end where it rolls up
    float lead = 0.3f;   // rad
    float straight = 0;  // mm before it curls
    float apart = 0;     // mm from turn to turn of one that rolls up
    float length = 10;   // mm at which it breaks
    float strays = 0;    // rad/mm: how fast a long one turns to where there is room for it
};

Curl curlOf(const ChipCut& cut);

// Where there is room: away from the chuck, off the rake face, outside also away from the part.
glm::vec3 roomFor(const ChipCut& cut);

// A chip of this length about the origin, with its edge end there; empty where it is too short to be drawn. `seed`
// tells one from the next.
TriangleMesh curledChip(const ChipCut& cut, const Curl& curl, float length, std::uint32_t seed);

}  // namespace firstoff::gui
