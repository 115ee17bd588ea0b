// Where chips run off a tool at an instant, and what the cut says of them.
//
// Chips are for the picture only: how they break and where they go is not reckoned, and nothing is checked against
// them. What a trial knows is the chip as it is cut – its width along the edge, its thickness, the speed it is made at
// (sim/cutting/cutting_load.h) – and that is what they are drawn from. A cut whose loads were not reckoned has none.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "gui/scene/lathe_scene.h"
#include "gui/scene/surface_look.h"

namespace firstoff::gui {

// One chip at one instant. Scene frame, mm; directions of unit length, square to each other.
struct ChipCut {
    glm::vec3 place{0};        // middle of the edge in metal; of tools on the axis, a flute at the mouth of the hole
    glm::vec3 flow{1, 0, 0};   // the way the chip runs over the rake face
    glm::vec3 edge{0, 1, 0};   // along the edge, to the side that is free
    glm::vec3 rake{0, 0, -1};  // out of the rake face
    float widthMm = 0;         // of the metal that becomes the chip, along the edge
    float thicknessMm = 0;     // of the same, greatest
    double speedMmPerS = 0;    // of the metal at the edge; slower than in truth, as the spindle is (spindle_turn.h)
    double timeS = 0;          // of the instant
    double sinceS = 0;         // since when it has been cutting without a break
    Metal metal = Metal::Steel;
    bool plunges = false;  // a blade that goes in between two walls: the chip rolls up on itself
    bool inside = false;   // within a bore
    unsigned which = 0;    // of several at one instant
};

// Empty while no metal is taken. One for a tool at work, two for a tool on the axis.
std::vector<ChipCut> chipCutsAt(const SceneInstant& instant);

}  // namespace firstoff::gui
