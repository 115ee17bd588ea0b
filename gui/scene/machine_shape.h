// What stands still on the machine, or turns with the spindle: headstock, chuck, jaws, tailstock. Each in the frame of
// its carrier (see firstoff::Carrier), laid out as the scene: x = z, y = r, z = y.
//
// The shapes lie within the bodies that clearances are measured from; a chamfer, a recess, the gaps between jaws are
// all that is taken off them.
#pragma once

#include "gui/gl/triangle_mesh.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/setup/setup.h"

namespace firstoff::gui {

struct ChuckShape {
    TriangleMesh body;  // turned
    TriangleMesh
        jaws;  // the first towards the turret at the spindle angle 0; stand on the bar. Or the nose of a collet
};
ChuckShape shapeOf(const Chuck& chuck, const Stock& stock);

// Everything behind the chuck. For the picture only: the set-up says nothing of it.
TriangleMesh headstockShape(const Chuck& chuck);

// A body turned on the axis of the spindle, from its sections, with its outer corners broken.
TriangleMesh turnedShape(const MachineBody& body, std::uint32_t rgb);

// What carries the quill, down to the bed at z = -`bedDepth`. For the picture only: without the casting where the
// set-up gives that.
TriangleMesh tailstockFoot(const Tailstock& tailstock, float bedDepth);

// The plain behind the work at z = `depth`, as a grid that can carry soft shadows; two guideways at `rails` from the
// axis, marked by red = 1 in the vertex colour.
TriangleMesh bedShape(float fromX, float toX, float depth, float rails);

// The other way round along the spindle, as a second spindle stands.
TriangleMesh facedAbout(TriangleMesh mesh);

}  // namespace firstoff::gui
