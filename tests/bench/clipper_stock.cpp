#include <polyclipping/clipper.hpp>

#include <algorithm>
#include <cmath>

#include "tests/bench/polygon_stocks.h"

namespace firstoff::bench {

namespace {

constexpr double kUnitsPerMm = 1e6;

ClipperLib::IntPoint whole(Point p) {
    return {static_cast<ClipperLib::cInt>(std::llround(p.z * kUnitsPerMm)),
            static_cast<ClipperLib::cInt>(std::llround(p.r * kUnitsPerMm))};
}

double cross(Point o, Point a, Point b) {
    return (a.z - o.z) * (b.r - o.r) - (a.r - o.r) * (b.z - o.z);
}

}  // namespace

// Andrew's monotone chain; elementary.
std::vector<Point> sweptHull(const Sweep& straight, const std::vector<Point>& tool) {
    std::vector<Point> all;
    for (const Point& p : tool) {
        all.push_back(straight.from + p);
        all.push_back(straight.to + p);
    }
    std::sort(all.begin(), all.end(), [](Point a, Point b) { return a.z != b.z ? a.z < b.z : a.r < b.r; });
    std::vector<Point> hull(2 * all.size());
    std::size_t n = 0;
    const auto add = [&](Point p, std::size_t least) {
        while (n > least && cross(hull[n - 2], hull[n - 1], p) <= 0) --n;
        hull[n++] = p;
    };
    for (const Point& p : all) add(p, 1);
    const std::size_t lower = n;
    for (auto p = all.rbegin() + 1; p != all.rend(); ++p) add(*p, lower);
    hull.resize(n - 1);
    return hull;
}

struct ClipperStock::Metal {
    ClipperLib::Paths paths;
};

ClipperStock::ClipperStock(const Stock& stock) : metal_(std::make_unique<Metal>()) {
    metal_->paths = {{whole({stock.backZ, stock.boreRadius}), whole({stock.frontZ, stock.boreRadius}),
                      whole({stock.frontZ, stock.outerRadius}), whole({stock.backZ, stock.outerRadius})}};
}

ClipperStock::~ClipperStock() = default;

void ClipperStock::cut(const std::vector<Point>& convex) {
    ClipperLib::Path tool;
    for (const Point& p : convex) tool.push_back(whole(p));
    ClipperLib::Clipper clipper;
    clipper.AddPaths(metal_->paths, ClipperLib::ptSubject, true);
    clipper.AddPath(tool, ClipperLib::ptClip, true);
    ClipperLib::Paths left;
    clipper.Execute(ClipperLib::ctDifference, left);
    metal_->paths.swap(left);
}

double ClipperStock::outerAt(double z) const {
    const double at = z * kUnitsPerMm;
    double r = 0;
    for (const ClipperLib::Path& path : metal_->paths) {
        for (std::size_t i = 0; i < path.size(); ++i) {
            const ClipperLib::IntPoint a = path[i], b = path[(i + 1) % path.size()];
            const auto az = static_cast<double>(a.X), bz = static_cast<double>(b.X);
            if ((az <= at) == (bz <= at)) continue;
            const double share = (at - az) / (bz - az);
            r = std::max(r, static_cast<double>(a.Y) + share * static_cast<double>(b.Y - a.Y));
        }
    }
    return r / kUnitsPerMm;
}

}  // namespace firstoff::bench
