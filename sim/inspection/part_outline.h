// The outline of one piece of the billet as gauges meet it: where a straight line crosses it, and what is metal there.
//
// Notation. A line of sight starts at P and looks along the unit vector d; a hit at the distance t is the point P + t d
// on an edge. Metal lies to the left of every edge, so that the line leaves metal at a hit where d points to the right
// of the edge, and enters it where d points to the left.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/outline.h"
#include "sim/base/point.h"
#include "sim/stock/billet.h"

namespace firstoff {

struct OutlineEdge {
    Point from, to;  // lathe frame
    double bulge = 0;
    CutId cut = kUncut;
    // Its neighbours along the contour, as indices; those of an open line point to itself at its ends.
    std::size_t before = 0, after = 0;

    bool straight() const { return bulge == 0; }
};

struct OutlineHit {
    double t = 0;  // mm along the line of sight
    Point at;
    std::size_t edge = 0;
    bool leavesMetal = false;
};

class PartOutline {
public:
    PartOutline() = default;
    // The contours of one piece, or drawn ones (`cuts` then empty). Edges along the axis are left out.
    void add(const Contour& contour, const std::vector<CutId>& cuts = {}, bool closed = true);

    bool empty() const { return edges_.empty(); }
    const std::vector<OutlineEdge>& edges() const { return edges_; }
    const Box& box() const { return box_; }

    // Hits with t between `least` and `most`, nearest to `least` first. Where two edges meet on the line there may be
    // one of each. Edges along the line are passed over.
    std::vector<OutlineHit> hits(Point from, Point direction, double least, double most) const;
    // The edge nearest to a place, and how far away it is (t).
    std::optional<OutlineHit> nearest(Point place) const;

private:
    std::vector<OutlineEdge> edges_;
    std::vector<Box> boxes_;
    Box box_;
};

// Direction of travel, of length 1, at a point of the edge.
Point directionAt(const OutlineEdge& edge, Point at);
double lengthOf(const OutlineEdge& edge);
double distanceTo(const OutlineEdge& edge, Point place);
// At a share of its length.
Point pointAlong(const OutlineEdge& edge, double share);

}  // namespace firstoff
