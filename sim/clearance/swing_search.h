// The nearest that two bodies come while the first swings about its axis: best first over pairs of parts and stretches
// of the swing.
//
// Bound of a stretch. Let n be a direction that separates the two solids in the middle of the stretch. Along n they
// stay apart at least by
//
//        min over x of the first, over the stretch, of n·x(turn)  -  max over y of the second of n·y,
//
// and n·x(turn) is a sine of the turn for every corner x, whose least value over a stretch is known in closed form
// (Rocking). Where the gap is least the bound errs only by the square of the stretch, so that few halvings do; a piece
// that is round about the axis of the turn does not move at all.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/clearance/body_tree.h"
#include "sim/clearance/convex_distance.h"
#include "sim/clearance/nearness.h"
#include "sim/clearance/pair_search.h"

namespace firstoff {

template <typename B>
class SwingSearch {
public:
    using NodeB = typename B::Node;

    SwingSearch(PlacedBody first, const B& second, double turnFrom, double turnTo, double beyond)
        : a_(first),
          b_(second),
          from_(turnFrom),
          by_(turnTo - turnFrom),
          best_(std::max(beyond, kFinestMm)),
          beyond_(best_) {}

    SwingNearness run() {
        findNearest();
        if (found_ && result_.nearest.gap == 0) findFirstContact();
        return result_;
    }

private:
    struct Item {
        double key = 0;  // least first: bound, or the start of the stretch
        double bound = 0;
        std::uint32_t a = 0;
        NodeB b{};
        double start = 0, end = 1;  // fractions of the swing
        SpacePoint away;
        bool operator<(const Item& other) const { return key > other.key; }

        double middle() const { return (start + end) / 2; }
    };

    double halfTurn(const Item& item) const { return by_ * (item.end - item.start) / 2; }
    double travel(const Item& item) const { return 2 * std::abs(halfTurn(item)) * a_.cover(item.a).reach(); }
    bool single(const Item& item) const { return a_.isSingle(item.a) && b_.isSingle(item.b); }

    Item whole() {
        a_.stand().turnTo(from_ + by_ / 2);
        const SpacePoint guess = a_.cover(a_.root()).middle() - b_.cover(b_.root()).middle();
        return {0, 0, a_.root(), b_.root(), 0, 1, guess};
    }

    void push(Item item, double key) {
        item.key = key;
        heap_.push_back(item);
        std::push_heap(heap_.begin(), heap_.end());
    }
    Item pop() {
        std::pop_heap(heap_.begin(), heap_.end());
        const Item item = heap_.back();
        heap_.pop_back();
        return item;
    }

    // Sets bound and direction of an item from what stands in its middle; tells how near it is there.
    template <typename FirstSolid, typename SecondSolid>
    Separation look(Item& item, const FirstSolid& first, const SecondSolid& second, const Sought& sought) const {
        const Separation s = separation(first, second, item.away, sought);
        item.away = s.away;
        const double apart = first.least(s.away, Rocking(halfTurn(item))) - dot(s.away, second.support(s.away));
        item.bound = std::max(item.bound, apart - kRoundingMm);
        return s;
    }
    Separation look(Item& item) {
        a_.stand().turnTo(from_ + by_ * item.middle());
        if (single(item)) return look(item, a_.solid(item.a), b_.solid(item.b), {kFar, kNearnessMm / 2, 1});
        return look(item, a_.cover(item.a), b_.cover(item.b), {kFar, 1e-3, kCoverShare});
    }

    // The parts of an item: halves of its stretch, or the children of its larger node.
    template <typename Take>
    void split(const Item& item, Take take) const {
        const double sizeA = a_.isSingle(item.a) ? 0 : a_.size(item.a);
        const double sizeB = b_.isSingle(item.b) ? 0 : b_.size(item.b);
        Item part = item;
        if (single(item) || travel(item) > 2 * (sizeA + sizeB)) {
            part.end = item.middle();
            take(part);
            part.start = part.end;
            part.end = item.end;
            take(part);
        } else if (sizeA > sizeB) {
            PlacedBody::Children children;
            const int n = a_.children(item.a, children);
            for (int i = 0; i < n; ++i) {
                part.a = children[static_cast<std::size_t>(i)];
                take(part);
            }
        } else {
            typename B::Children children;
            const int n = b_.children(item.b, children);
            for (int i = 0; i < n; ++i) {
                part.b = children[static_cast<std::size_t>(i)];
                take(part);
            }
        }
    }

    // What is no nearer than this need not be looked at.
    double level() const {
        if (!found_) return beyond_;
        return best_ - std::max(kFinestMm, std::min(swingBelow(best_), best_ / 2));
    }

    void findNearest() {
        push(whole(), 0);
        double passedOver = kFar;
        while (!heap_.empty() && (!found_ || best_ > 0)) {
            Item item = pop();
            if (item.bound >= level()) {
                passedOver = std::min(passedOver, item.bound);
                break;
            }
            const Separation s = look(item);
            if (single(item)) take(item, s, std::max(0.0, s.lower - kRoundingMm));
            if (item.bound >= level()) {
                passedOver = std::min(passedOver, item.bound);
                continue;
            }
            if (single(item) && travel(item) <= kLeastTravelMm) {
                // A gap that differs from what is sought by rounding only.
                take(item, s, item.bound);
                continue;
            }
            split(item, [&](const Item& part) { push(part, part.bound); });
        }
        // All that is left was either passed over or lies behind the one that ended the search.
        result_.nearest.gap = found_ ? std::max(0.0, std::min(best_, passedOver)) : passedOver;
    }

    void take(const Item& item, const Separation& s, double gap) {
        if (gap >= best_) return;
        best_ = gap;
        found_ = true;
        result_.nearest = {gap, s.onFirst, s.onSecond};
        result_.fraction = item.middle();
    }

    // Earliest stretches first; those that stay clear are dropped. What is left first when it is short enough holds the
    // first contact, and nothing before its start can. If nothing is left, all was clear after all, by a hair.
    void findFirstContact() {
        heap_.clear();
        push(whole(), 0);
        double dropped = best_;
        while (!heap_.empty()) {
            Item item = pop();
            item.bound = 0;
            const Separation s = look(item);
            if (item.bound > 0) {
                dropped = std::min(dropped, item.bound);
                continue;
            }
            const bool touches = s.lower <= kRoundingMm;
            if (single(item) && (travel(item) <= kFinestTravelMm || (touches && travel(item) <= kSwingMm))) {
                result_.nearest = {0, s.onFirst, s.onSecond};
                result_.fraction = item.start;
                return;
            }
            split(item, [&](const Item& part) { push(part, part.start); });
        }
        result_.nearest.gap = dropped;
    }

    static constexpr double kFar = std::numeric_limits<double>::infinity();
    static constexpr double kSwingMm = 0.01;
    static constexpr double kFinestMm = 1e-3;
    static constexpr double kFinestTravelMm = 1e-4;
    static constexpr double kLeastTravelMm = 1e-7;

    PlacedBody a_;
    const B& b_;
    double from_, by_;
    double best_, beyond_;
    bool found_ = false;
    SwingNearness result_;
    std::vector<Item> heap_;
};

}  // namespace firstoff
