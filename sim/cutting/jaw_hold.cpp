#include "sim/cutting/jaw_hold.h"

#include <algorithm>
#include <vector>

namespace firstoff {

namespace {

// By how much jaws and metal give way, so that a stretch this much thinner is gripped as well (common practice, no
// source).
constexpr double kBearMm = 0.05;

double gripLength(const Chuck& chuck) {
    if (chuck.gripLength <= 0) return chuck.jawLength;
    // A collet grips behind its nose, inside the chuck.
    return chuck.kind == Chuck::Kind::Collet ? chuck.gripLength : std::min(chuck.gripLength, chuck.jawLength);
}

}  // namespace

Range gripRange(const Chuck& chuck) {
    return {chuck.jawLength - gripLength(chuck), chuck.jawLength};
}

Range gripRangeOfSecond(const Chuck& chuck, double faceZ) {
    return {faceZ - chuck.jawLength, faceZ - chuck.jawLength + gripLength(chuck)};
}

JawHold holdOf(const Billet& billet, Range grip, Chuck::Grip way) {
    const Grid& grid = billet.grid();
    const int first = std::max(0, grid.columnNear(grip.min));
    const int last = std::min(grid.columnNear(grip.max), grid.columns - 1);
    std::vector<Interval> solids;
    std::vector<double> radii;
    for (int column = first; column <= last; ++column) {
        const double z = grid.z(column);
        if (z < grip.min || z > grip.max) continue;
        billet.intervals(column, solids);
        if (solids.empty()) continue;
        const double r = way == Chuck::Grip::Outside ? solids.back().outer : solids.front().inner;
        if (r > 0) radii.push_back(r);
    }
    if (radii.empty()) return {};
    const bool outside = way == Chuck::Grip::Outside;
    JawHold hold;
    hold.radius =
        outside ? *std::max_element(radii.begin(), radii.end()) : *std::min_element(radii.begin(), radii.end());
    const auto bears = [&](double r) { return outside ? r >= hold.radius - kBearMm : r <= hold.radius + kBearMm; };
    hold.lengthMm = grid.pitch * static_cast<double>(std::count_if(radii.begin(), radii.end(), bears));
    return hold;
}

double frontOf(const Billet& billet) {
    const Grid& grid = billet.grid();
    std::vector<Interval> solids;
    for (int chunk = grid.chunks() - 1; chunk >= 0; --chunk) {
        if (billet.bounds(chunk).maxOuter <= 0) continue;
        const int from = chunk * kChunkColumns;
        for (int column = std::min(from + kChunkColumns, grid.columns) - 1; column >= from; --column) {
            billet.intervals(column, solids);
            if (!solids.empty()) return grid.border(column + 1);
        }
    }
    return grid.border(0);
}

}  // namespace firstoff
