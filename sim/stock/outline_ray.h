// A ray against a convex outline.
#pragma once

#include "sim/base/outline.h"
#include "sim/base/point.h"

namespace firstoff {

struct RayHit {
    double way = 0;    // from the ray's start, mm
    int element = -1;  // of the outline that is met first; -1: none
};

// Where the ray from `start` (in the outline's frame) along the unit vector `along` first meets the outline. A ray that
// starts within it meets it at 0.
RayHit firstMeeting(const Outline& outline, Point start, Point along);

// The outline turned so that `along` becomes the z axis and what is to its left the r axis.
Outline turnedOutline(const Outline& outline, Point along);

}  // namespace firstoff
