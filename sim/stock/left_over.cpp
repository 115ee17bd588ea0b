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

LeftOver::LeftOver(ColumnsLeft left, bool turnedRound, double frontZ)
    : left_(std::move(left)), turnedRound_(turnedRound), frontZ_(frontZ), lastColumn_(left_.grid.columns - 1) {
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
    return !column || (left_.isRound && left_.isRound(*column));
}

std::vector<Interval> LeftOver::column(double z, double angle) const {
    const std::optional<int> column = columnAt(z);
    if (!column) return {};
    const double turns = (turnedRound_ ? -angle : angle) / (2 * kPi);
    const long nearest = std::lround((turns - std::floor(turns)) * left_.sectors);
    std::vector<Interval> solids;
    left_.read(*column, static_cast<int>(nearest % left_.sectors), solids);
    for (Interval& solid : solids) {
        for (CutId* cut : {&solid.innerCut, &solid.outerCut}) {
            if (*cut != kUncut) *cut = kCutBefore;
        }
    }
    return solids;
}

Stock sizedBy(Stock stock, const ColumnsLeft& left) {
    const LeftOver whole(left, stock.turnedRound, stock.frontZ);
    stock.backZ = stock.frontZ - whole.lengthMm();
    stock.outerRadius = whole.empty() ? 0 : left.outerRadius;
    stock.boreRadius = 0;
    return stock;
}

}  // namespace firstoff
