#include "sim/stock/loose_pieces.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

#include "sim/stock/solid_graph.h"

namespace firstoff {

namespace {

// By root of the graph: is it held? Metal at or behind `heldZ` is, or the rearmost where nothing reaches back that far.
std::vector<bool> heldRoots(const SolidGraph& graph, const Grid& grid, double heldZ) {
    const std::vector<SolidGraph::Node>& nodes = graph.nodes();
    std::vector<bool> held(nodes.size(), false);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const bool inJaws = grid.z(nodes[i].firstColumn) <= heldZ;
        if (!inJaws && nodes[i].firstColumn != nodes[0].firstColumn) break;
        held[static_cast<std::size_t>(graph.root(static_cast<int>(i)))] = true;
    }
    return held;
}

// What lies within a stretch of the envelope goes with it, in every sector.
void moveInSectors(Billet& from, Billet& to, int column, const Interval& stretch) {
    const int index = column / kChunkColumns;
    if (from.isRound(index)) return;
    to.takeKinds(from, index);
    std::vector<Interval> solids, going, staying;
    Sectors& source = from.ownSectors(index);
    Sectors& target = to.ownSectors(index);
    const auto k = static_cast<std::size_t>(column % kChunkColumns);
    for (std::size_t kind = 0; kind < source.kinds.size(); ++kind) {
        readColumn(*source.kinds[kind], k, solids);
        readColumn(*target.kinds[kind], k, going);
        staying.clear();
        for (const Interval& solid : solids) {
            const bool goes = solid.inner >= stretch.inner && solid.outer <= stretch.outer;
            (goes ? going : staying).push_back(solid);
        }
        std::sort(going.begin(), going.end(), [](const Interval& a, const Interval& b) { return a.inner < b.inner; });
        source.bounds[kind] = writeColumn(source.kinds[kind], k, staying);
        target.bounds[kind] = writeColumn(target.kinds[kind], k, going);
    }
}

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
    for (const Interval& solid : solids) {
        const bool goes = only == nullptr || (solid.inner == only->inner && solid.outer == only->outer);
        if (goes) moveInSectors(from, to, column, solid);
    }
    from.setIntervals(column, staying);
    to.setIntervals(column, going);
}

// All metal of a chunk, in one go: the piece takes over the chunk and its sectors as they are, and what stays behind is
// empty and so round, whatever it was. A long thread has tens of thousands of columns in as many sectors.
void moveChunk(Billet& from, Billet& to, int index) {
    to.chunkRef(index) = from.chunkRef(index);
    to.setBounds(index, from.bounds(index));
    to.sectorsRef(index) = std::move(from.sectorsRef(index));
    from.sectorsRef(index).reset();
    Chunk& left = from.ownChunk(index);
    left.outer.r.fill(0);
    from.ownInner(left).r.fill(0);
    left.gaps.clear();
    from.measureChunk(index);
    for (Billet* billet : {&from, &to}) billet->boundSlab(index / kSlabChunks);
}

void moveNode(Billet& from, Billet& to, const SolidGraph::Node& node) {
    if (node.firstColumn == node.lastColumn) {
        moveColumn(from, to, node.firstColumn, &node.solid);
        return;
    }
    for (int column = node.firstColumn; column <= node.lastColumn;) {
        const int index = column / kChunkColumns;
        const bool whole = column % kChunkColumns == 0 && column + kChunkColumns - 1 <= node.lastColumn;
        if (whole && to.isRound(index) && to.bounds(index).maxOuter <= 0) {
            moveChunk(from, to, index);
            column += kChunkColumns;
        } else {
            moveColumn(from, to, column++, nullptr);
        }
    }
}

}  // namespace

namespace {

// The faces at both ends of a piece were made by what took the metal beside them.
void keepEndCuts(const Billet& before, Billet& piece, int firstColumn, int lastColumn) {
    for (const int beside : {firstColumn - 1, lastColumn + 1}) {
        if (beside >= 0 && beside < piece.grid().columns) piece.setLastCut(beside, before.lastCut(beside));
    }
}

}  // namespace

std::vector<LoosePiece> takeLoose(Billet& billet, double heldZ) {
    const SolidGraph graph(billet, 0, billet.grid().columns);
    const std::vector<bool> held = heldRoots(graph, billet.grid(), heldZ);
    std::vector<LoosePiece> loose;
    std::vector<int> roots;
    std::vector<std::pair<int, int>> spans;  // columns of each piece
    std::optional<Billet> before;
    for (std::size_t i = 0; i < graph.nodes().size(); ++i) {
        const int root = graph.root(static_cast<int>(i));
        if (held[static_cast<std::size_t>(root)]) continue;
        auto at = std::find(roots.begin(), roots.end(), root);
        if (at == roots.end()) {
            at = roots.insert(at, root);
            loose.push_back({Billet::emptyLike(billet)});
            spans.emplace_back(graph.nodes()[i].firstColumn, graph.nodes()[i].lastColumn);
            if (!before) before = billet;
        }
        const auto index = static_cast<std::size_t>(at - roots.begin());
        spans[index].second = std::max(spans[index].second, graph.nodes()[i].lastColumn);
        moveNode(billet, loose[index].billet, graph.nodes()[i]);
    }
    for (std::size_t i = 0; i < loose.size(); ++i) {
        keepEndCuts(*before, loose[i].billet, spans[i].first, spans[i].second);
        loose[i].volumeMm3 = loose[i].billet.volumeMm3();
    }
    return loose;
}

}  // namespace firstoff
