// What another trial left, as the blank of this one: chucked with its front face where the set-up wants it, or turned
// round first.
//
// Turned round means turned by half a turn about the line from the axis towards the turret at the angle 0. So z runs
// the other way and a sector at the angle t comes to stand at -t.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "sim/setup/setup.h"
#include "sim/stock/billet.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/grid.h"
#include "sim/stock/history.h"

namespace firstoff {

// The columns of a billet, wherever they are kept.
struct ColumnsLeft {
    Grid grid;
    int sectors = 1;
    double outerRadius = 0;                                                        // none reaches farther
    std::function<void(int column, int sector, std::vector<Interval>& out)> read;  // also of the sector kEnvelope
    std::function<bool(int column)> isRound;  // all sectors alike; may say no where they are
};

// Of a billet that outlives what is returned.
ColumnsLeft columnsOf(const Billet& billet);

// What is held at the end of a history (piece 0), or a piece that fell (1, 2, … in order of falling). Nothing for a
// piece that never fell.
std::optional<Billet> billetLeft(const std::shared_ptr<const StockHistory>& history, int piece);

class LeftOver {
public:
    // `frontZ`: where the front face stands from now on, lathe frame.
    LeftOver(ColumnsLeft left, bool turnedRound, double frontZ);

    bool empty() const { return lastColumn_ < firstColumn_; }
    double lengthMm() const;  // between the ends of its metal
    int sectors() const { return left_.sectors; }

    // Solid stretches at z (lathe frame, as it is chucked now) under a sector angle (rad): of the column and the sector
    // that are nearest, so exact where pitch and sectors are the same, else to half a pitch and half a sector. Surfaces
    // that the other program cut are kCutBefore.
    std::vector<Interval> column(double z, double angle) const;
    bool isRoundAt(double z) const;

private:
    std::optional<int> columnAt(double z) const;  // of what is left; nothing beside it
    bool hasMetal(int column) const;

    ColumnsLeft left_;
    bool turnedRound_;
    double frontZ_;
    int firstColumn_ = 0, lastColumn_ = -1;  // with metal in them
};

// The stock with the size of what is left; without radius and length where there is nothing.
Stock sizedBy(Stock stock, const ColumnsLeft& left);

}  // namespace firstoff
