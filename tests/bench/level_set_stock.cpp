// OpenVDB's headers are slow to compile: besides this source only field_bench.cpp has them.
#include <openvdb/openvdb.h>
#include <openvdb/tools/Composite.h>
#include <openvdb/tools/Interpolation.h>
#include <openvdb/tools/MeshToVolume.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/bench/polygon_stocks.h"

namespace firstoff::bench {

namespace {

constexpr int kSides = 256;

// The ring that a polygon of the half-section sweeps round the axis; parts beyond the axis are left out.
openvdb::FloatGrid::Ptr ring(const std::vector<Point>& polygon, double voxelMm) {
    std::vector<openvdb::Vec3s> points;
    std::vector<openvdb::Vec4I> quads;
    const auto n = static_cast<std::uint32_t>(polygon.size());
    for (int side = 0; side < kSides; ++side) {
        const double a = 2 * kPi * side / kSides;
        for (const Point& p : polygon) {
            const double r = std::max(p.r, 0.0);
            points.emplace_back(p.z / voxelMm, r * std::cos(a) / voxelMm, r * std::sin(a) / voxelMm);
        }
    }
    for (std::uint32_t side = 0; side < kSides; ++side) {
        const std::uint32_t next = (side + 1) % kSides;
        for (std::uint32_t i = 0; i < n; ++i) {
            const std::uint32_t j = (i + 1) % n;
            quads.emplace_back(side * n + i, side * n + j, next * n + j, next * n + i);
        }
    }
    const auto transform = openvdb::math::Transform::createLinearTransform(1.0);
    return openvdb::tools::meshToLevelSet<openvdb::FloatGrid>(*transform, points, quads, 3.0F);
}

}  // namespace

struct LevelSetStock::Metal {
    openvdb::FloatGrid::Ptr grid;
    double voxelMm = 0;
    double outer = 0;
};

LevelSetStock::LevelSetStock(const Stock& stock, double voxelMm) : metal_(std::make_unique<Metal>()) {
    openvdb::initialize();
    metal_->voxelMm = voxelMm;
    metal_->outer = stock.outerRadius;
    metal_->grid = ring({{stock.backZ, stock.boreRadius},
                         {stock.frontZ, stock.boreRadius},
                         {stock.frontZ, stock.outerRadius},
                         {stock.backZ, stock.outerRadius}},
                        voxelMm);
}

LevelSetStock::~LevelSetStock() = default;

void LevelSetStock::cut(const std::vector<Point>& convex) {
    openvdb::FloatGrid::Ptr tool = ring(convex, metal_->voxelMm);
    openvdb::tools::csgDifference(*metal_->grid, *tool);
}

// Along the ray at the angle 0, where the field changes sign for the last time.
double LevelSetStock::outerAt(double z) const {
    openvdb::tools::GridSampler<openvdb::FloatGrid, openvdb::tools::BoxSampler> field(*metal_->grid);
    const auto at = [&](double r) {
        return static_cast<double>(field.isSample(openvdb::Vec3R(z / metal_->voxelMm, r / metal_->voxelMm, 0.0)));
    };
    double high = metal_->outer + 1;
    double low = high;
    while (low > 0 && at(low) > 0) {
        high = low;
        low -= metal_->voxelMm / 4;
    }
    for (int i = 0; i < 40 && low > 0; ++i) {
        const double middle = (low + high) / 2;
        (at(middle) > 0 ? high : low) = middle;
    }
    return std::max(low, 0.0);
}

}  // namespace firstoff::bench
