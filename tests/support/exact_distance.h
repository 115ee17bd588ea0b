// Distances between convex solids by another library, CGAL, with exact numbers: a second method to hold ours against.
// CGAL's polytope distance is a quadratic program, ours a walk over supports.
#pragma once

#include <vector>

#include "sim/base/space.h"
#include "sim/clearance/convex_piece.h"
#include "sim/clearance/nearness.h"

namespace firstoff::shop {

// Between the convex hulls of two sets of points; 0 if they touch or overlap. The square is exact for the points as
// given; the root is rounded.
double hullDistance(const std::vector<SpacePoint>& first, const std::vector<SpacePoint>& second);

// Triangles of the convex hull of some points that do not all lie in one plane, seen from outside anticlockwise.
std::vector<ConvexPiece> hullTriangles(const std::vector<SpacePoint>& points);

// Corners of a piece. What is turned is cut into `facets` flats, corners on its surface: no point of it is further
// outside the flats than flatDepth(piece, facets).
std::vector<SpacePoint> cornersOf(const ConvexPiece& piece, int facets);
double flatDepth(const ConvexPiece& piece, int facets);

// The same, at the first of its shifts.
std::vector<SpacePoint> placed(std::vector<SpacePoint> points, const Placing& at);

}  // namespace firstoff::shop
