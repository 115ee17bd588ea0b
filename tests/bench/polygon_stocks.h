// The billet as general-purpose libraries have it, for comparison: a polygon of the half-section (Clipper, whole
// nanometres) and a level set in space (OpenVDB). GEOS is in tests/support/geos_stock.h.
#pragma once

#include <memory>
#include <vector>

#include "sim/base/point.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet.h"

namespace firstoff::bench {

// A convex polygon, anticlockwise, that one straight stretch of a move sweeps.
std::vector<Point> sweptHull(const Sweep& straight, const std::vector<Point>& tool);

class ClipperStock {
public:
    explicit ClipperStock(const Stock& stock);
    ~ClipperStock();
    void cut(const std::vector<Point>& convex);
    // Outer radius at z, 0 where there is nothing.
    double outerAt(double z) const;

private:
    struct Metal;
    std::unique_ptr<Metal> metal_;
};

class LevelSetStock {
public:
    LevelSetStock(const Stock& stock, double voxelMm);
    ~LevelSetStock();
    void cut(const std::vector<Point>& convex);
    double outerAt(double z) const;

private:
    struct Metal;
    std::unique_ptr<Metal> metal_;
};

}  // namespace firstoff::bench
