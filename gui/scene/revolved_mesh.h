// Turned bodies as triangles: half-section loops swept round the axis.
#pragma once

#include <cstdint>
#include <functional>
#include <span>

#include "gui/gl/triangle_mesh.h"
#include "sim/stock/billet.h"

namespace firstoff::gui {

// Angles run round the spindle axis from the turret's direction X (0) towards the operator (a quarter turn), scene
// frame: a point (z, r) of the half-section at the angle a stands at (z, r cos a, r sin a).
struct RevolveOptions {
    int sectors = 72;                    // of a whole turn
    double fromAngle = 0;                // rad
    double toAngle = 6.283185307179586;  // more than `fromAngle`, at most a whole turn after it
    // Edges that meet at less than this are shaded as one surface if they are also short enough to be chords of it:
    // their sagitta must be below `chordMm`. A taper on a cylinder stays a corner, a fillet does not.
    double smoothAngle = 0.45;  // rad
    double chordMm = 0.1;
    // Colour and fineness of the surface that a cut left, as the vertex colour.
    std::function<std::uint32_t(CutId)> colour = [](CutId) { return 0xffffffffu; };
    // Its feed marks, mm from one to the next, as Vertex::lay.
    std::function<float(CutId)> lay = [](CutId) { return 0.0f; };
};

// The skin: closed for a whole turn, open at both ends of the sweep otherwise. Normals follow the circle exactly. A
// vertex's `along` grows along cylinders and faces alike and depends on the place only, so that a pattern laid on it
// stands still while the billet changes.
TriangleMesh revolve(std::span<const Loop> loops, const RevolveOptions& options);

// The flat face that a cut through the axis leaves at one angle; `normalSign` +1 faces growing angles, -1 the other
// way.
TriangleMesh sectionFace(std::span<const Loop> loops, double angle, int normalSign, std::uint32_t colour);

// Sectors for which the silhouette of a circle of `radiusPx` pixels is off by less than a third of a pixel.
int sectorsFor(double radiusPx);

}  // namespace firstoff::gui
