// A closed convex outline of straight edges and circular arcs: the cutting part of a tool seen in the turning half-plane.
#pragma once

#include <vector>

#include "sim/base/point.h"

namespace firstoff {

// One element of an outline. The outline runs anticlockwise (z right, r up), so material of the tool lies to the left.
// An arc bulges outwards and is shorter than half a turn; `radius` 0 means a straight edge and then `centre` is unused.
struct OutlineElement {
    Point from;
    Point to;
    Point centre;
    double radius = 0;
    // False where the element only closes the shape (the back of an insert): metal removed by it was not cut but rammed.
    bool cutting = true;
};

// Convex, closed, at least two elements. Frame is said by the owner; for tools it is the tool frame (imaginary tip at 0).
struct Outline {
    std::vector<OutlineElement> elements;

    bool empty() const { return elements.empty(); }
};

struct Box {
    double zMin = 0, zMax = 0, rMin = 0, rMax = 0;
};
Box boundingBox(const Outline& outline);

// The convex polygon `corners` (anticlockwise, sharp) with each corner `i` rounded to `radii[i]` (0 keeps it sharp).
// Radii must fit: neighbouring tangent lengths may not exceed the edge between them; the set-up checks this first.
Outline roundedPolygon(const std::vector<Point>& corners, const std::vector<double>& radii);

// Points along the outline, anticlockwise, chords within `chordErrorMm` of the arcs; first point not repeated.
std::vector<Point> polyline(const Outline& outline, double chordErrorMm);

}  // namespace firstoff
