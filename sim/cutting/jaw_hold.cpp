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

// Of the surface gripped, over all angles of the turn; `round`: where it is the same for all.
double nearestToAxis(const Billet& billet, int column, Chuck::Grip way, double round) {
    if (billet.isRound(column / kChunkColumns)) return round;
    double nearest = round;
    std::vector<Interval> solids;
    for (int sector = 0; sector < billet.sectors(); ++sector) {
        billet.intervals(column, solids, sector);
        if (solids.empty()) continue;
        nearest = std::min(nearest, way == Chuck::Grip::Outside ? solids.back().outer : solids.front().inner);
    }
    return nearest;
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
    std::vector<double> radii, flats;
    for (int column = first; column <= last; ++column) {
        const double z = grid.z(column);
        if (z < grip.min || z > grip.max) continue;
        billet.intervals(column, solids);
        if (solids.empty()) continue;
        const double r = way == Chuck::Grip::Outside ? solids.back().outer : solids.front().inner;
        if (r <= 0) continue;
        radii.push_back(r);
        flats.push_back(nearestToAxis(billet, column, way, r));
    }
    if (radii.empty()) return {};
    const bool outside = way == Chuck::Grip::Outside;
    JawHold hold;
    hold.radius =
        outside ? *std::max_element(radii.begin(), radii.end()) : *std::min_element(radii.begin(), radii.end());
    const auto bears = [&](double r) { return outside ? r >= hold.radius - kBearMm : r <= hold.radius + kBearMm; };
    hold.lengthMm = grid.pitch * static_cast<double>(std::count_if(radii.begin(), radii.end(), bears));
    hold.flatRadius = hold.radius;
    for (std::size_t i = 0; i < radii.size(); ++i) {
        if (bears(radii[i])) hold.flatRadius = std::min(hold.flatRadius, flats[i]);
    }
    return hold;
}

bool standsOnFlats(const Chuck& chuck, const Stock& stock) {
    if (chuck.kind == Chuck::Kind::Collet || chuck.jaws <= 0) return true;
    if (stock.shape == Stock::Shape::Hexagon) return 6 % chuck.jaws == 0;
    if (stock.shape == Stock::Shape::Square) return 4 % chuck.jaws == 0;
    return true;
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
