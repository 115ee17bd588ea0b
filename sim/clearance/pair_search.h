// The nearest pair of parts of two bodies that are given as trees of convex covers: best first, by lower bounds.
//
// A tree has a root(), isSingle(node), children(node, out), size(node), cover(node) with a middle, a convex solid round
// all below, and for single ones solid(node), the part itself. The first tree is a PlacedBody; the second may be the
// hull of a billet. Nothing depends on anything but the two trees and `beyond`.
#pragma once

#include <algorithm>
#include <limits>
#include <utility>
#include <vector>

#include "sim/clearance/body_tree.h"
#include "sim/clearance/convex_distance.h"
#include "sim/clearance/nearness.h"

namespace firstoff {

// How far a cover's bound is driven: to this share of its distance. Less would leave too many pairs in play.
inline constexpr double kCoverShare = 0.995;

template <typename A, typename B>
class PairSearch {
public:
    using NodeA = typename A::Node;
    using NodeB = typename B::Node;

    // Contact is told from the least gap that is told apart even where nothing further is asked for.
    PairSearch(const A& first, const B& second, double beyond)
        : a_(first), b_(second), best_(std::max(beyond, kNearnessMm)) {}

    // Looks at this pair of single parts before all others.
    void tryFirst(NodeA a, NodeB b) { measure({0, a, b, guess(a, b), 0}); }

    Nearness run() {
        if (a_.isSingle(a_.root()) && b_.isSingle(b_.root())) {
            measure({0, a_.root(), b_.root(), guess(a_.root(), b_.root()), 0});
        } else {
            push(a_.root(), b_.root(), guess(a_.root(), b_.root()), 0);
        }
        while (!heap_.empty() && heap_.front().bound < best_) {
            std::pop_heap(heap_.begin(), heap_.end());
            const Item item = heap_.back();
            heap_.pop_back();
            if (a_.isSingle(item.a) && b_.isSingle(item.b)) {
                measure(item);
            } else {
                split(item);
            }
        }
        if (!heap_.empty()) passedOver_ = std::min(passedOver_, heap_.front().bound);
        if (!found_) nearest_.gap = passedOver_;
        return nearest_;
    }

    bool found() const { return found_; }
    NodeA foundFirst() const { return foundA_; }
    NodeB foundSecond() const { return foundB_; }

private:
    struct Item {
        double bound = 0;
        NodeA a{};
        NodeB b{};
        SpacePoint away;
        int depth = 0;
        // The heap's greatest is the next: least bound, and where covers overlap, the deepest.
        bool operator<(const Item& other) const {
            return bound != other.bound ? bound > other.bound : depth < other.depth;
        }
    };

    SpacePoint guess(NodeA a, NodeB b) const { return a_.cover(a).middle() - b_.cover(b).middle(); }

    void push(NodeA a, NodeB b, SpacePoint away, int depth) {
        const Separation s = separation(a_.cover(a), b_.cover(b), away, {best_, 1e-3, kCoverShare});
        const double bound = std::max(0.0, s.lower - kRoundingMm);
        if (bound >= best_) {
            passedOver_ = std::min(passedOver_, bound);
            return;
        }
        heap_.push_back({bound, a, b, s.away, depth});
        std::push_heap(heap_.begin(), heap_.end());
    }

    void split(const Item& item) {
        const bool first = b_.isSingle(item.b) || (!a_.isSingle(item.a) && a_.size(item.a) > b_.size(item.b));
        if (first) {
            typename A::Children children;
            const int n = a_.children(item.a, children);
            for (int i = 0; i < n; ++i) push(children[static_cast<std::size_t>(i)], item.b, item.away, item.depth + 1);
        } else {
            typename B::Children children;
            const int n = b_.children(item.b, children);
            for (int i = 0; i < n; ++i) push(item.a, children[static_cast<std::size_t>(i)], item.away, item.depth + 1);
        }
    }

    void measure(const Item& item) {
        const Separation s = separation(a_.solid(item.a), b_.solid(item.b), item.away, {best_, kNearnessMm / 2, 1});
        const double gap = std::max(0.0, s.lower - kRoundingMm);
        if (gap >= best_) {
            passedOver_ = std::min(passedOver_, gap);
            return;
        }
        best_ = gap;
        nearest_ = {gap, s.onFirst, s.onSecond};
        found_ = true;
        foundA_ = item.a;
        foundB_ = item.b;
    }

    const A& a_;
    const B& b_;
    double best_;
    // Least bound of what was not looked at further: what is told where nothing is nearer than was asked for.
    double passedOver_ = std::numeric_limits<double>::infinity();
    Nearness nearest_;
    bool found_ = false;
    NodeA foundA_{};
    NodeB foundB_{};
    std::vector<Item> heap_;
};

}  // namespace firstoff
