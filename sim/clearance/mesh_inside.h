// Whether a point lies within a closed surface of triangles.
#pragma once

#include <vector>

#include "sim/clearance/body_tree.h"

namespace firstoff {

// `p` in the frame of the body. A ray from it goes through the surface; outwards counts one, inwards minus one, and the
// point is inside unless the sum is zero: so shells that overlap are solid, hollows are not, and a surface that is
// inside out as a whole makes no difference. Rays that pass too near to an edge are not believed but sent another way.
bool isInside(const BodyShape::Data& mesh, SpacePoint p);

// A point of each part that hangs together: of each piece, or of each shell of a mesh.
std::vector<SpacePoint> samplesOf(const BodyShape::Data& data);

}  // namespace firstoff
