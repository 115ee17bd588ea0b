// What another trial left, as the blank of this one: chucked with its front face where the set-up wants it, or turned
// round first.
//
// Turned round means turned by half a turn about the line from the axis towards the turret at the angle 0. So z runs
// the other way and a sector at the angle t comes to stand at -t.
//
// Gripped off its axis, it stands `eccentricity` off the spindle axis towards the angle 0. Seen from there a circle of
// radius R of the part reaches e cos t + sqrt(R^2 - e^2 sin^2 t) at the angle t.
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
    LeftOver(ColumnsLeft left, bool turnedRound, double frontZ, double eccentricity = 0);

    bool empty() const { return lastColumn_ < firstColumn_; }
    double lengthMm() const;  // between the ends of its metal
    int sectors() const { return left_.sectors; }

    // Solid stretches at z (lathe frame, as it is chucked now) under a sector angle (rad): of the column and the sector
    // that are nearest, so exact where pitch and sectors are the same, else to half a pitch and half a sector. Surfaces
    // that the other program cut are kCutBefore. Off its axis what is not round is read between the two nearest
    // sectors.
    std::vector<Interval> column(double z, double angle) const;
    bool isRoundAt(double z) const;

private:
    std::optional<int> columnAt(double z) const;  // of what is left; nothing beside it
    bool hasMetal(int column) const;
    struct Crossing {
        double enters = 0, leaves = 0;
        bool empty() const { return leaves <= enters; }
    };
    Crossing through(int column, double angle, std::size_t solid, double Interval::*side) const;
    std::vector<Interval> onItsAxis(int column, double angle) const;
    std::vector<Interval> offItsAxis(int column, double angle) const;
    double radiusAt(int column, double angle, std::size_t solid, double Interval::*side) const;

    ColumnsLeft left_;
    bool turnedRound_;
    double frontZ_;
    double eccentricity_;
    int firstColumn_ = 0, lastColumn_ = -1;  // with metal in them
};

// The stock with the size of what is left; without radius and length where there is nothing.
Stock sizedBy(Stock stock, const ColumnsLeft& left);

}  // namespace firstoff
