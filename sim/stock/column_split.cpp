#include "sim/stock/column_split.h"

#include <algorithm>

namespace firstoff {

ColumnLoss takeOut(std::vector<Interval>& solids, double lo, double hi, CutId cut) {
    ColumnLoss loss;
    for (std::size_t i = 0; i < solids.size();) {
        Interval& solid = solids[i];
        const double from = std::max(lo, solid.inner);
        const double to = std::min(hi, solid.outer);
        if (from >= to) {
            ++i;
            continue;
        }
        loss.area += (to - from) * (to + from);
        loss.depth += to - from;
        const bool keepsInside = from > solid.inner;
        const bool keepsOutside = to < solid.outer;
        if (keepsInside && keepsOutside) {
            const Interval outside{to, solid.outer, cut, solid.outerCut};
            solid.outer = from;
            solid.outerCut = cut;
            solids.insert(solids.begin() + static_cast<std::ptrdiff_t>(i) + 1, outside);
            i += 2;
        } else if (keepsInside) {
            solid.outer = from;
            solid.outerCut = cut;
            ++i;
        } else if (keepsOutside) {
            solid.inner = to;
            solid.innerCut = cut;
            ++i;
        } else {
            solids.erase(solids.begin() + static_cast<std::ptrdiff_t>(i));
        }
    }
    return loss;
}

}  // namespace firstoff
