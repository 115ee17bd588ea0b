// The places of the tool tip at which a tool meets a body.
//
// A tool T (an outline about its tip) that stands with its tip at p meets a body B when p lies in Z = B + (-T), the
// Minkowski sum of the body and the tool turned half round (elementary geometry). Z is convex when both are, and its
// boundary is known in closed form: edges of B, edges of T, and arcs of T or corners, each set on the corner of B that
// faces the same way. The distance of p from Z is the gap between tool and body; inside Z, less than zero, it is the
// shortest shift that parts them. Along a straight line it is a convex function of the way.
#pragma once

#include <vector>

#include "sim/base/outline.h"
#include "sim/base/point.h"

namespace firstoff {

class ContactZone {
public:
    // `corners`: a convex polygon, anticlockwise, with area. `tool`: convex and not empty, tool frame.
    ContactZone(const std::vector<Point>& corners, const Outline& tool);

    struct Reading {
        double gap = 0;   // mm; negative inside
        Point away;       // unit: the direction in which the gap grows fastest, 1 for 1
        int feature = 0;  // of the boundary; for placeOnBody() and as a hint
    };
    // `hint`: feature of a reading nearby, for speed only.
    Reading at(Point tip, int hint = 0) const;

    // Point of the body that is nearest to the tool.
    Point placeOnBody(const Reading& reading, Point tip) const;

    const Box& box() const { return box_; }

private:
    // A stretch of the boundary: an edge, or the arc (of radius 0: a corner) that faces from `first` to `last`.
    struct Feature {
        Point origin;  // start of an edge; centre of an arc
        Point first;   // outward unit normals, anticlockwise; an edge has one
        Point last;
        double length = 0;       // edges
        double radius = 0;       // arcs
        double bodyLength = -1;  // edges that come from an edge of the body: its length; -1 for all else
        Point onBody;            // the corner of the body, or where its edge starts
        bool edge = false;
    };
    // The stretch of normals between two edges of the body, where the zone follows the tool about one corner.
    struct Corner {
        Point at;
        Point first, last;
    };
    void addBodyEdge(Point from, Point to, const std::vector<Feature>& tool);
    void addEdge(const Feature& toolEdge, const Corner& corner);
    void addArc(const Feature& toolArc, const Corner& corner);
    bool read(const Feature& f, Point tip, Reading& reading) const;

    std::vector<Feature> features_;
    Box box_;
};

}  // namespace firstoff
