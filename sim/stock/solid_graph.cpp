#include "sim/stock/solid_graph.h"

#include <algorithm>
#include <cstddef>

namespace firstoff {

SolidGraph::SolidGraph(const Billet& billet, int firstColumn, int endColumn) : firstColumn_(firstColumn) {
    for (int base = firstColumn; base < endColumn; base += kChunkColumns) {
        const int chunk = base / kChunkColumns;
        const int end = std::min(base + kChunkColumns, endColumn);
        if (billet.bounds(chunk).maxOuter <= 0) {
            left_.clear();
            leftBegin_ = leftEnd_;
        } else if (billet.isPlain(chunk, kEnvelope, kHoldMm)) {
            addColumn(billet, base, end - 1);
            billet.intervals(end - 1, left_);
        } else {
            for (int column = base; column < end; ++column) addColumn(billet, column, column);
        }
    }
}

void SolidGraph::addColumn(const Billet& billet, int column, int lastColumn) {
    billet.intervals(column, solids_);
    const int begin = static_cast<int>(nodes_.size());
    for (const Interval& solid : solids_) {
        parent_.push_back(static_cast<int>(nodes_.size()));
        nodes_.push_back({column, lastColumn, solid});
    }
    std::size_t low = 0;
    for (std::size_t b = 0; b < solids_.size(); ++b) {
        bool held = column == firstColumn_;
        while (low < left_.size() && left_[low].outer <= solids_[b].inner) ++low;
        for (std::size_t a = low; a < left_.size() && left_[a].inner < solids_[b].outer; ++a) {
            if (!holds(left_[a], solids_[b])) continue;
            unite(leftBegin_ + static_cast<int>(a), begin + static_cast<int>(b));
            held = true;
        }
        if (!held) leans_ = true;
    }
    leftBegin_ = begin;
    leftEnd_ = static_cast<int>(nodes_.size());
    left_.swap(solids_);
}

int SolidGraph::root(int node) const {
    while (parent_[static_cast<std::size_t>(node)] != node) node = parent_[static_cast<std::size_t>(node)];
    return node;
}

// The older root stays root; the path walked is shortened.
void SolidGraph::unite(int a, int b) {
    const int rootA = root(a);
    const int rootB = root(b);
    const int top = std::min(rootA, rootB);
    parent_[static_cast<std::size_t>(std::max(rootA, rootB))] = top;
    parent_[static_cast<std::size_t>(a)] = top;
    parent_[static_cast<std::size_t>(b)] = top;
}

}  // namespace firstoff
