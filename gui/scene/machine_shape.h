// What stands still on the machine, or turns with the spindle: headstock, chuck, jaws, tailstock. Scene frame.
#pragma once

#include "gui/gl/triangle_mesh.h"
#include "sim/setup/setup.h"

namespace firstoff::gui {

struct ChuckShape {
    TriangleMesh body;  // turned
    TriangleMesh jaws;  // the first towards the turret at the spindle angle 0; stand on the bar
};
ChuckShape shapeOf(const Chuck& chuck, const Stock& stock);

// Everything behind the chuck. For the picture only: the set-up says nothing of it.
TriangleMesh headstockShape(const Chuck& chuck);

// Centre, bearing housing and quill, turned on the spindle axis.
TriangleMesh shapeOf(const Tailstock& tailstock);
// The casting that carries the quill, down to the bed at z = -`bedDepth`. For the picture only.
TriangleMesh tailstockBody(const Tailstock& tailstock, float bedDepth);

// The plain behind the work at z = `depth`, as a grid that can carry soft shadows; two guideways at `rails` from the
// axis, marked by red = 1 in the vertex colour.
TriangleMesh bedShape(float fromX, float toX, float depth, float rails);

}  // namespace firstoff::gui
