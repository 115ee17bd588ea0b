// Centre paths of single elements under nose-radius compensation, and where neighbouring ones meet. Notation in the
// source.
#pragma once

#include <optional>

#include "sim/base/point.h"
#include "sim/control/nose_compensation.h"

namespace firstoff::nose {

bool hasNoLength(const PathElement& e);
double distanceTo(const PathElement& e, Point p);
// Angle that an arc runs through, in (0, 2 pi]; its ends are not one point.
double turnOf(const PathElement& e);
// The point half way along it.
Point middleOf(const PathElement& e);

// Centre path of one element before its ends are joined to its neighbours.
struct Curve {
    Point from, to;  // perpendicular to the ends of the element
    Point t1, t2;  // direction of travel at `from` and at `to`; those of the element, also where the nose does not fit
    Point centre;
    double k = 0;       // 0: a line
    double radius = 0;  // of the arc at `to`; an arc whose ends differ a little in radius keeps that difference
    double length = 0;
    double lacking = 0;     // by how much the nose is larger than the hollow arc it should run in
    bool vanishes = false;  // a hollow arc with no path for the centre

    // Signed length from `from` forwards to x, and from x forwards to `to`.
    double after(Point x) const;
    double before(Point x) const;
    // Of travel, of any length.
    Point directionAt(Point x, Point ofLine) const;
};

// `side`: +1 left, -1 right of travel. The element has a length.
Curve offsetLine(const PathElement& e, double side, double noseRadius);
Curve offset(const PathElement& e, double side, double noseRadius);

// Where the centre path turns from one curve to the next: it leaves the one at `end` and runs straight over `leave` and
// `lead` to `start` on the other. Mostly all four are one point.
struct Corner {
    Point end, leave, lead, start;
};

// Corner of two elements that follow each other at `p`; `miss` is set to more than zero if their offsets do not meet.
Corner cornerOf(const Curve& a, const Curve& b, Point p, double side, double noseRadius, double& miss);

// The same if the path turns outwards there, nothing otherwise.
std::optional<Corner> outsideTurn(const Curve& a, const Curve& b, Point p, double side, double noseRadius);

// Where `b` meets a curve `a` that is not its neighbour, if that takes something off both and the path turns inwards
// there.
std::optional<Point> insideMeeting(const Curve& a, const Curve& b, double side);

}  // namespace firstoff::nose
