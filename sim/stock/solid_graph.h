// What hangs together along z. A node is a solid stretch of one column, or a whole chunk whose columns share a radius;
// neighbours that overlap are united.
#pragma once

#include <vector>

#include "sim/stock/billet_columns.h"

namespace firstoff {

class SolidGraph {
public:
    struct Node {
        int firstColumn = 0, lastColumn = 0;
        Interval solid;  // of the column; for whole chunks that of the first
    };

    // Of the columns from `firstColumn` to before `endColumn`; both at borders of chunks, or the end of the bar.
    SolidGraph(const Billet& billet, int firstColumn, int endColumn);

    // In order of column, then r.
    const std::vector<Node>& nodes() const { return nodes_; }
    // Nodes that hang together have the same root, the first of them.
    int root(int node) const;
    // Some stretch, other than those of the first column, overlaps none in the column to its left.
    bool leans() const { return leans_; }

private:
    void addColumn(const Billet& billet, int column, int lastColumn);
    void unite(int a, int b);

    int firstColumn_;
    bool leans_ = false;
    std::vector<Node> nodes_;
    std::vector<int> parent_;
    std::vector<Interval> solids_;
    int leftBegin_ = 0, leftEnd_ = 0;  // nodes of the column before
    std::vector<Interval> left_;       // their stretches there
};

}  // namespace firstoff
