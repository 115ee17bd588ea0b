#include "sim/stock/hold.h"

#include <algorithm>
#include <vector>

#include "sim/stock/solid_graph.h"

namespace firstoff {

namespace {

constexpr int kSlabColumns = kSlabChunks * kChunkColumns;

bool heldFromLeft(const Billet& billet, int column, std::vector<Interval>& left, std::vector<Interval>& right) {
    billet.intervals(column - 1, left);
    billet.intervals(column, right);
    return std::all_of(right.begin(), right.end(), [&](const Interval& solid) {
        return std::any_of(left.begin(), left.end(), [&](const Interval& other) { return holds(other, solid); });
    });
}

}  // namespace

SlabHold holdOf(const Billet& billet, int slab) {
    const int first = slab * kSlabColumns;
    const SolidGraph graph(billet, first, std::min(first + kSlabColumns, billet.grid().columns));
    SlabHold hold;
    hold.leans = graph.leans();
    for (std::size_t i = 0; i < graph.nodes().size() && hold.leans && hold.together; ++i) {
        const int root = graph.root(static_cast<int>(i));
        hold.together = graph.nodes()[static_cast<std::size_t>(root)].firstColumn == first;
    }
    return hold;
}

int firstUnsoundSlab(const Billet& billet) {
    std::vector<Interval> left;
    std::vector<Interval> right;
    for (int slab = 0; slab < billet.grid().slabs(); ++slab) {
        if (slab > 0 && !heldFromLeft(billet, slab * kSlabColumns, left, right)) return slab;
        if (billet.slabLeans(slab) && !holdOf(billet, slab).together) return slab;
    }
    return billet.grid().slabs();
}

}  // namespace firstoff
