// Disc or gang plate, what carries it, and the blocks. Laid out as the scene (x = z, y = r, z = y), each within the
// body that clearances are measured from.
#pragma once

#include "gui/gl/triangle_mesh.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/setup/setup.h"

namespace firstoff::gui {

// Frame of the turret, as it stands with station 1 in working position. With the numbers of the stations on it.
TriangleMesh discShape(const Setup& setup, const firstoff::MachineBodies& machine);
TriangleMesh plateShape(const Setup& setup);

// A block, in working position.
TriangleMesh blockShape(const ToolBlock& block);

// The housing behind the disc, frame of the turret.
TriangleMesh headShape(const Setup& setup);

// Where the set-up has no table [turret] the picture stands one up as machines usually have it: the axis of a tool that
// stands along the spindle this far from the mounting face. Nothing is measured from it.
inline constexpr double kUsualBlockMm = 42;
Setup withTurret(Setup setup);

}  // namespace firstoff::gui
