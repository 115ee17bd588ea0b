// Turning outlines over and moving them. Inside sim/setup only.
#pragma once

#include <vector>

#include "sim/base/outline.h"
#include "sim/base/point.h"

namespace firstoff {

// Unit vector at an angle (rad) to +z, towards +r.
Point direction(double angle);

// The mirror image in z, in r or in both; anticlockwise again.
Outline mirrored(const Outline& outline, bool inZ, bool inR);

// The mirror image in the diagonal: z and r change places.
Outline transposed(const Outline& outline);

Outline shifted(Outline outline, Point by);

// About the origin, anticlockwise.
Outline turned(Outline outline, double angle);

// A rectangle; empty without area.
Outline rectangle(double zMin, double zMax, double rMin, double rMax);

// True where the tool is the mirror image, in z or in r, of one that feeds towards the chuck on the outside.
bool isMirroredInZ(int tipNumber);
bool isMirroredInR(int tipNumber);

}  // namespace firstoff
