#include "sim/stock/edge_watch.h"

#include <algorithm>

namespace firstoff {

void EdgeNotes::clear() {
    entries_.clear();
    solids_.clear();
}

void EdgeNotes::note(std::uint32_t move, const Billet& billet, int column) {
    billet.intervals(column, column_);
    const auto begin = static_cast<std::uint32_t>(solids_.size());
    solids_.insert(solids_.end(), column_.begin(), column_.end());
    entries_.push_back({move, begin, static_cast<std::uint32_t>(solids_.size())});
}

namespace {

bool held(const std::vector<Interval>& left, const std::vector<Interval>& right) {
    return std::all_of(right.begin(), right.end(), [&](const Interval& solid) {
        return std::any_of(left.begin(), left.end(), [&](const Interval& other) { return holds(other, solid); });
    });
}

}  // namespace

void appendLoosened(const Billet& before, int border, const EdgeNotes& left, const EdgeNotes& right,
                    std::vector<std::uint32_t>& moves) {
    if (left.entries().empty() && right.entries().empty()) return;
    std::vector<Interval> leftSolids;
    std::vector<Interval> rightSolids;
    before.intervals(border - 1, leftSolids);
    before.intervals(border, rightSolids);
    auto l = left.entries().begin();
    auto r = right.entries().begin();
    while (l != left.entries().end() || r != right.entries().end()) {
        const bool useLeft = r == right.entries().end() || (l != left.entries().end() && l->move <= r->move);
        const std::uint32_t move = useLeft ? l->move : r->move;
        for (; l != left.entries().end() && l->move == move; ++l) {
            leftSolids.assign(left.solids(l->begin), left.solids(l->end));
        }
        for (; r != right.entries().end() && r->move == move; ++r) {
            rightSolids.assign(right.solids(r->begin), right.solids(r->end));
        }
        if (!held(leftSolids, rightSolids)) moves.push_back(move);
    }
}

}  // namespace firstoff
