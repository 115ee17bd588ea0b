// A node is a solid stretch of one column, or a whole chunk whose columns share a radius. Neighbours that overlap are
// united; what ends up in another set than the held nodes is loose.
#include "sim/stock/loose_pieces.h"

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace firstoff {

namespace {

struct Node {
    int firstColumn = 0, lastColumn = 0;
    Interval solid;  // of the column; for whole chunks unused
};

class Pieces {
public:
    Pieces(const Billet& billet, double heldZ) {
        std::vector<Interval> solids;
        std::vector<Interval> left;
        std::vector<int> leftNodes;
        std::vector<int> nodes;
        for (int chunk = 0; chunk < billet.grid().chunks(); ++chunk) {
            const int base = chunk * kChunkColumns;
            const int end = std::min(base + kChunkColumns, billet.grid().columns);
            if (billet.bounds(chunk).maxOuter <= 0) {
                left.clear();
                leftNodes.clear();
                continue;
            }
            const bool plain = billet.isPlain(chunk);
            for (int column = base; column < end; ++column) {
                billet.intervals(column, solids);
                nodes.clear();
                for (const Interval& solid : solids) {
                    nodes.push_back(add({column, plain ? end - 1 : column, solid}));
                }
                for (std::size_t a = 0; a < left.size(); ++a) {
                    for (std::size_t b = 0; b < solids.size(); ++b) {
                        if (joined(left[a], solids[b])) unite(leftNodes[a], nodes[b]);
                    }
                }
                if (plain) {
                    billet.intervals(end - 1, left);
                    leftNodes = nodes;
                    break;
                }
                left.swap(solids);
                leftNodes.swap(nodes);
            }
        }
        hold(billet.grid(), heldZ);
    }

    const std::vector<Node>& nodes() const { return nodes_; }
    bool anyLoose() const {
        for (std::size_t i = 0; i < nodes_.size(); ++i) {
            if (!held_[static_cast<std::size_t>(root(static_cast<int>(i)))]) return true;
        }
        return false;
    }
    bool held(int node) const { return held_[static_cast<std::size_t>(root(node))]; }
    int root(int node) const {
        while (parent_[static_cast<std::size_t>(node)] != node) node = parent_[static_cast<std::size_t>(node)];
        return node;
    }

private:
    int add(const Node& node) {
        nodes_.push_back(node);
        parent_.push_back(static_cast<int>(parent_.size()));
        return static_cast<int>(parent_.size()) - 1;
    }
    // The older root stays root, so that paths stay short and the order of pieces is that of their back ends.
    void unite(int a, int b) {
        a = shortened(a);
        b = shortened(b);
        if (a == b) return;
        parent_[static_cast<std::size_t>(std::max(a, b))] = std::min(a, b);
    }
    int shortened(int node) {
        const int top = root(node);
        while (parent_[static_cast<std::size_t>(node)] != top) {
            const int next = parent_[static_cast<std::size_t>(node)];
            parent_[static_cast<std::size_t>(node)] = top;
            node = next;
        }
        return top;
    }
    void hold(const Grid& grid, double heldZ) {
        held_.assign(nodes_.size(), false);
        bool any = false;
        for (std::size_t i = 0; i < nodes_.size(); ++i) {
            if (grid.z(nodes_[i].firstColumn) > heldZ) break;
            held_[static_cast<std::size_t>(root(static_cast<int>(i)))] = true;
            any = true;
        }
        if (any || nodes_.empty()) return;
        for (std::size_t i = 0; i < nodes_.size() && nodes_[i].firstColumn == nodes_[0].firstColumn; ++i) {
            held_[static_cast<std::size_t>(root(static_cast<int>(i)))] = true;
        }
    }

    std::vector<Node> nodes_;
    std::vector<int> parent_;
    std::vector<bool> held_;
};

void moveColumn(Billet& from, Billet& to, int column, const Interval* only) {
    std::vector<Interval> solids;
    from.intervals(column, solids);
    std::vector<Interval> going;
    to.intervals(column, going);
    std::vector<Interval> staying;
    for (const Interval& solid : solids) {
        const bool goes = only == nullptr || (solid.inner == only->inner && solid.outer == only->outer);
        (goes ? going : staying).push_back(solid);
    }
    std::sort(going.begin(), going.end(), [](const Interval& a, const Interval& b) { return a.inner < b.inner; });
    from.setIntervals(column, staying);
    to.setIntervals(column, going);
}

void moveNode(Billet& from, Billet& to, const Node& node) {
    if (node.firstColumn == node.lastColumn) {
        moveColumn(from, to, node.firstColumn, &node.solid);
        return;
    }
    for (int column = node.firstColumn; column <= node.lastColumn; ++column) moveColumn(from, to, column, nullptr);
}

double thickest(const Billet& billet) {
    double most = 0;
    std::vector<Interval> solids;
    for (int column = 0; column < billet.grid().columns; ++column) {
        if (billet.bounds(column / kChunkColumns).maxOuter <= 0) continue;
        billet.intervals(column, solids);
        for (const Interval& solid : solids) most = std::max(most, solid.outer - solid.inner);
    }
    return most;
}

}  // namespace

std::vector<LoosePiece> takeLoose(Billet& billet, double heldZ) {
    const Pieces pieces(billet, heldZ);
    std::vector<LoosePiece> loose;
    if (!pieces.anyLoose()) return loose;
    std::vector<int> roots;
    for (std::size_t i = 0; i < pieces.nodes().size(); ++i) {
        const int node = static_cast<int>(i);
        if (pieces.held(node)) continue;
        auto at = std::find(roots.begin(), roots.end(), pieces.root(node));
        if (at == roots.end()) {
            at = roots.insert(at, pieces.root(node));
            loose.push_back({Billet::emptyLike(billet)});
        }
        moveNode(billet, loose[static_cast<std::size_t>(at - roots.begin())].billet, pieces.nodes()[i]);
    }
    for (LoosePiece& piece : loose) {
        piece.volumeMm3 = piece.billet.volumeMm3();
        piece.thickestMm = thickest(piece.billet);
    }
    return loose;
}

}  // namespace firstoff
