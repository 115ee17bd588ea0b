// What a tool looks like, from its dimensions in the set-up.
#pragma once

#include "gui/gl/triangle_mesh.h"
#include "sim/setup/setup.h"

namespace firstoff::gui {

// In the tool frame laid out as the scene: x = z from the imaginary tip, y = radially outwards, z = along the third
// axis, 0 at the centre line. The cutting edge stands at the tool's centre height with its rake face against the metal
// coming round: away from the operator for a spindle that turns forward, towards him for reverse.
struct ToolShape {
    TriangleMesh edge;    // insert and blade, or drill point and flutes
    TriangleMesh holder;  // shank, bar, collet chuck
    bool turned = false;  // `edge` is round and stands on the axis
};

ToolShape shapeOf(const Tool& tool);

}  // namespace firstoff::gui
