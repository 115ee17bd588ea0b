// The same cutting by a general-purpose polygon library (GEOS, C interface), as an outside truth: the tool as a polygon
// of fine chords, each step of a move as the convex hull of two placements, subtracted from the rectangle of the bar.
#pragma once

#include <geos_c.h>

#include <vector>

#include "sim/base/outline.h"
#include "sim/stock/billet.h"

namespace firstoff::shop {

class GeosStock {
public:
    GeosStock(double backZ, double frontZ, double boreRadius, double outerRadius);
    ~GeosStock();
    GeosStock(const GeosStock&) = delete;
    GeosStock& operator=(const GeosStock&) = delete;

    // Arcs of the path are walked in chords within `chordErrorMm`; `tool` is a convex polygon, anticlockwise.
    void cut(const Sweep& sweep, const std::vector<Point>& tool, double chordErrorMm);

    double area() const;
    // Greatest distance from any point of either boundary to the other, found at points no further apart than `stepMm`.
    // Points on metal, or on gaps, thinner along z than `thinMm` are left out.
    double farthestFrom(const std::vector<Loop>& loops, double stepMm, double thinMm) const;

private:
    GEOSGeometry* ring(const std::vector<Point>& points) const;
    bool isThinAt(Point p, double thinMm) const;
    GEOSGeometry* hull(const std::vector<Point>& points) const;

    GEOSContextHandle_t context_;
    GEOSGeometry* metal_ = nullptr;
};

}  // namespace firstoff::shop
