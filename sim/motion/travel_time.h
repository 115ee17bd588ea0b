// Time along a straight line or an arc whose pace depends on the radius, in closed form, and the way back from time to
// place.
#pragma once

#include "sim/base/point.h"
#include "sim/motion/pace.h"

namespace firstoff {

// A straight stretch: programmed radius (signed) at both ends and its length, mm.
struct StraightTravel {
    double radiusFrom = 0;
    double radiusTo = 0;
    double length = 0;
};

double seconds(const StraightTravel& travel, const PaceLaw& pace);
// Part of the length covered after `time` seconds, 0 to 1.
double fractionAfter(const StraightTravel& travel, const PaceLaw& pace, double time);

// An arc about a centre: where it starts and how far it turns (anticlockwise positive), rad.
struct Arc {
    Point centre;
    double radiusFrom = 0;  // mm; differs from radiusTo by what the control lets pass
    double radiusTo = 0;
    double angleFrom = 0;
    double turn = 0;

    double radius() const { return (radiusFrom + radiusTo) / 2; }
    double length() const;
    Point at(double fraction) const;
};

// The arc from `from` to `to`. Equal ends make a whole turn; ends nearer than the same place, none.
Arc arcBetween(Point from, Point to, Point centre, bool clockwise);

// `centreRadius`: programmed radius of the arc's centre (signed), mm.
double seconds(const Arc& arc, double centreRadius, const PaceLaw& pace);
double fractionAfter(const Arc& arc, double centreRadius, const PaceLaw& pace, double time);

// Smallest distance to the axis along the arc, for a centre at programmed radius `centreRadius`.
double smallestRadius(const Arc& arc, double centreRadius);

}  // namespace firstoff
