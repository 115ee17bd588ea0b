// Bodies that the rows about nearness share.
#pragma once

#include <vector>

#include "sim/clearance/convex_piece.h"
#include "sim/clearance/nearness.h"

namespace firstoff::bench {

// A holder in its block with a collet chuck beside it: ten pieces, tip at the origin.
const std::vector<ConvexPiece>& holderPieces();

// A turned body as a closed surface of about `wanted` triangles; the half-section starts and ends on the axis.
std::vector<ConvexPiece> turnedMesh(int wanted, const std::vector<Point>& half);
// A chuck of 164 mm with a collar of 120 mm, face of the chuck at z = 0, of the collar at 30.
std::vector<ConvexPiece> chuckMesh(int wanted);

// Starts of moves past that mesh, `off` mm or a little more in front of the collar: there the boxes round both overlap.
std::vector<Point> startsBeside(double off);

}  // namespace firstoff::bench
