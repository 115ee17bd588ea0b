// Taking a radial stretch out of one column.
#pragma once

#include <vector>

#include "sim/stock/billet.h"

namespace firstoff {

struct ColumnLoss {
    double area = 0;   // sum of r² differences
    double depth = 0;  // radial
};

// Takes [lo, hi] out of the solid stretches of a column; the surfaces it leaves carry `cut`.
ColumnLoss takeOut(std::vector<Interval>& solids, double lo, double hi, CutId cut);

}  // namespace firstoff
