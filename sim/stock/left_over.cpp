#include "sim/stock/left_over.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <utility>

#include "sim/base/units.h"
#include "sim/stock/recorded_history.h"

namespace firstoff {

ColumnsLeft columnsOf(const Billet& billet) {
    ColumnsLeft left;
    left.grid = billet.grid();
    for (int slab = 0; slab < left.grid.slabs(); ++slab) {
        left.outerRadius = std::max(left.outerRadius, billet.slabMaxOuter(slab));
    }
    left.sectors = billet.sectors();
    left.read = [&billet](int column, int sector, std::vector<Interval>& out) {
        billet.intervals(column, out, sector);
    };
    left.isRound = [&billet](int column) { return billet.isRound(column / kChunkColumns); };
    return left;
}

std::optional<Billet> billetLeft(const std::shared_ptr<const StockHistory>& history, int piece) {
    if (piece > static_cast<int>(history->severances().size()) || piece < 0) return std::nullopt;
    if (piece > 0) {
        const auto recorded = std::dynamic_pointer_cast<const RecordedHistory>(history);
        assert(recorded);
        return recorded->piece(static_cast<std::size_t>(piece) - 1);
    }
    StockCursor cursor(history);
    cursor.seek(static_cast<std::uint32_t>(history->cuts().size()), 0);
    return cursor.billet();
}

LeftOver::LeftOver(ColumnsLeft left, bool turnedRound, double frontZ, double eccentricity)
    : left_(std::move(left)),
      turnedRound_(turnedRound),
      frontZ_(frontZ),
      eccentricity_(eccentricity),
      lastColumn_(left_.grid.columns - 1) {
    while (firstColumn_ <= lastColumn_ && !hasMetal(firstColumn_)) ++firstColumn_;
    while (lastColumn_ >= firstColumn_ && !hasMetal(lastColumn_)) --lastColumn_;
}

bool LeftOver::hasMetal(int column) const {
    std::vector<Interval> solids;
    left_.read(column, kEnvelope, solids);
    return !solids.empty();
}

double LeftOver::lengthMm() const {
    return empty() ? 0 : static_cast<double>(lastColumn_ + 1 - firstColumn_) * left_.grid.pitch;
}

std::optional<int> LeftOver::columnAt(double z) const {
    if (empty()) return std::nullopt;
    const Grid& grid = left_.grid;
    const double behindFront = frontZ_ - z;
    const double before =
        turnedRound_ ? grid.border(firstColumn_) + behindFront : grid.border(lastColumn_ + 1) - behindFront;
    if (!(before >= grid.border(firstColumn_) && before <= grid.border(lastColumn_ + 1))) return std::nullopt;
    return std::clamp(grid.columnNear(before), firstColumn_, lastColumn_);
}

bool LeftOver::isRoundAt(double z) const {
    const std::optional<int> column = columnAt(z);
    return !column || (eccentricity_ == 0 && left_.isRound && left_.isRound(*column));
}

std::vector<Interval> LeftOver::column(double z, double angle) const {
    const std::optional<int> column = columnAt(z);
    if (!column) return {};
    std::vector<Interval> solids = eccentricity_ == 0 ? onItsAxis(*column, angle) : offItsAxis(*column, angle);
    for (Interval& solid : solids) {
        for (CutId* cut : {&solid.innerCut, &solid.outerCut}) {
            if (*cut != kUncut) *cut = kCutBefore;
        }
    }
    return solids;
}

std::vector<Interval> LeftOver::onItsAxis(int column, double angle) const {
    const double turns = (turnedRound_ ? -angle : angle) / (2 * kPi);
    const long nearest = std::lround((turns - std::floor(turns)) * left_.sectors);
    std::vector<Interval> solids;
    left_.read(column, static_cast<int>(nearest % left_.sectors), solids);
    return solids;
}

// Of one side of a solid, about the part's own axis, evenly from sector to sector.
double LeftOver::radiusAt(int column, double angle, std::size_t solid, double Interval::*side) const {
    const double sectors = (angle / (2 * kPi)) * left_.sectors;
    const double share = sectors - std::floor(sectors);
    const double step = 2 * kPi / left_.sectors;
    const auto before = onItsAxis(column, std::floor(sectors) * step);
    const auto after = onItsAxis(column, (std::floor(sectors) + 1) * step);
    const auto& nearest = share < 0.5 ? before : after;
    if (before.size() != after.size()) return solid < nearest.size() ? nearest[solid].*side : 0;
    return solid < before.size() ? (1 - share) * before[solid].*side + share * after[solid].*side : 0;
}

// Where a ray from the spindle axis enters and leaves one side of a solid.
LeftOver::Crossing LeftOver::through(int column, double angle, std::size_t solid, double Interval::*side) const {
    const double across = eccentricity_ * std::sin(angle), along = eccentricity_ * std::cos(angle);
    // What is not round is met at another angle of the part than the ray's: found in a few rounds, since the part
    // stands off by little.
    const int rounds = left_.isRound && left_.isRound(column) ? 1 : 4;
    Crossing way;
    double own = angle;
    for (int k = 0; k < rounds; ++k) {
        const double radius = radiusAt(column, own, solid, side);
        const double square = radius * radius - across * across;
        if (square <= 0) return {};
        way = {std::max(0.0, along - std::sqrt(square)), std::max(0.0, along + std::sqrt(square))};
        own = std::atan2(way.leaves * std::sin(angle), way.leaves * std::cos(angle) - eccentricity_);
    }
    return way;
}

std::vector<Interval> LeftOver::offItsAxis(int column, double angle) const {
    std::vector<Interval> solids;
    const std::vector<Interval> own = onItsAxis(column, angle);
    for (std::size_t i = 0; i < own.size(); ++i) {
        const Crossing outside = through(column, angle, i, &Interval::outer);
        const Crossing hole = own[i].inner > 0 ? through(column, angle, i, &Interval::inner) : Crossing{};
        const CutId inside = own[i].innerCut, cut = own[i].outerCut;
        if (hole.empty()) {
            if (!outside.empty())
                solids.push_back({outside.enters, outside.leaves, outside.enters > 0 ? cut : inside, cut});
            continue;
        }
        if (hole.enters > outside.enters) solids.push_back({outside.enters, hole.enters, cut, inside});
        if (outside.leaves > hole.leaves) solids.push_back({hole.leaves, outside.leaves, inside, cut});
    }
    std::sort(solids.begin(), solids.end(), [](const Interval& a, const Interval& b) { return a.inner < b.inner; });
    return solids;
}

Stock sizedBy(Stock stock, const ColumnsLeft& left) {
    const LeftOver whole(left, stock.turnedRound, stock.frontZ);
    stock.backZ = stock.frontZ - whole.lengthMm();
    stock.outerRadius = whole.empty() ? 0 : left.outerRadius + stock.eccentricity;
    stock.boreRadius = 0;
    return stock;
}

}  // namespace firstoff
