// Whether a mesh encloses a body, and one that can stand in a lathe.
#pragma once

#include <string_view>
#include <vector>

#include "sim/drawing/mesh.h"

namespace firstoff {

// The first fault of these; empty if there is none:
//   mesh-bad-number        a coordinate is no number
//   mesh-open              edges that are not run through as often one way as the other: holes, or single faces that
//                          look the wrong way. Corners are welded first, where they are equal and, if it is then open,
//                          where they are nearer than kWeldMm.
//   mesh-no-volume         what it encloses is thinner than kThinnestMm
//   mesh-inverted          its faces look inwards: it has a negative volume, or a shell of it has that does not lie
//                          within another
//   mesh-size-improbable   its longest side is below 1 mm or above 5 m, with the unit that was probably meant
// Several shells, and shells that touch along edges, are fine; whether faces pass through each other is not looked at.
std::vector<DrawingFault> faultsOf(const std::vector<MeshFacet>& triangles, std::string_view fileName,
                                   DrawingUnit unit);

// Above the rounding of a float at 1 m, far below the gaps clearances are about.
inline constexpr double kWeldMm = 0.001;
inline constexpr double kThinnestMm = 0.001;
inline constexpr double kShortestBodyMm = 1, kLongestBodyMm = 5000;

}  // namespace firstoff
