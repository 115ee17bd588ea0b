// How near two convex solids are, each known only by its support: the point of it that lies furthest in a direction.
//
// Notation: C = {a - b} over all a of the first, b of the second solid: convex, and its distance from the origin is the
// gap. For any direction v, w(v) = the point of C with the least v·w is a difference of two supports. v·w/|v| is a
// lower bound of the gap for every v, however it came about; |v| is an upper one for every v in C. Gilbert, Johnson and
// Keerthi (A fast procedure for computing the distance between complex objects in three-dimensional space, IEEE J. of
// Robotics and Automation 4, 1988; from memory) take for v the point nearest to the origin of a simplex of such w. What
// is told here is the best lower bound met. So rounding, flat simplices and solids without thickness may cost nearness
// of the two bounds, never the safe side.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "sim/base/space.h"

namespace firstoff {

// A gap is told smaller by this, which covers the rounding of supports and products at sizes of machines (100 m would
// take 1e-11 mm).
inline constexpr double kRoundingMm = 1e-9;

struct Separation {
    double lower = -std::numeric_limits<double>::infinity();  // mm, never above the gap; not above zero: may overlap
    double upper = std::numeric_limits<double>::infinity();   // distance between the two points
    SpacePoint onFirst, onSecond;
    SpacePoint away{1, 0,
                    0};  // unit, from the second towards the first: square to the planes that `lower` lies between
};

// Up to four points w of C, and which points a of the first solid they come from; those of the second are a - w.
class Simplex {
public:
    // Adds a corner and reduces to the fewest corners whose hull holds its point nearest to the origin, which is then
    // nearest(). False, and unchanged, if that came no nearer.
    bool add(SpacePoint w, SpacePoint a);
    bool has(SpacePoint w) const {
        for (std::size_t i = 0; i < count_; ++i) {
            if (w_[i] == w) return true;
        }
        return false;
    }
    bool holdsOrigin() const { return count_ == 4; }
    SpacePoint nearest() const { return nearest_; }
    SpacePoint onFirst() const {
        SpacePoint p;
        for (std::size_t i = 0; i < count_; ++i) p = p + share_[i] * a_[i];
        return p;
    }

private:
    std::array<SpacePoint, 4> w_, a_;
    std::array<double, 4> share_{};
    std::size_t count_ = 0;
    SpacePoint nearest_;
};

struct Sought {
    // The search may stop as soon as `lower` reaches this…
    double enough = std::numeric_limits<double>::infinity();
    // …or is so near to `upper`, by the difference or as a share of it.
    double agreeMm = 5e-5;
    double share = 1;
};

// A, B: SpacePoint support(SpacePoint direction) const. `start`: a guess at the direction from the second to the first.
template <typename A, typename B>
Separation separation(const A& first, const B& second, SpacePoint start, const Sought& sought) {
    constexpr int kMostSteps = 64;  // some 3 to 12 are usual
    Separation result;
    Simplex simplex;
    SpacePoint v = start;
    double norm = length(v);
    if (!(norm > 0)) {
        v = {1, 0, 0};
        norm = 1;
    }
    for (int step = 0; step < kMostSteps; ++step) {
        const SpacePoint a = first.support(-v), w = a - second.support(v);
        const double lower = dot(v, w) / norm;
        if (lower > result.lower) {
            result.lower = lower;
            result.away = (1 / norm) * v;
        }
        if (step == 0) {
            simplex.add(w, a);
            if (result.lower >= sought.enough) break;
        } else if (result.lower >= sought.enough || simplex.has(w) || !simplex.add(w, a)) {
            break;
        }
        v = simplex.nearest();
        norm = length(v);
        if (simplex.holdsOrigin() || norm <= kRoundingMm) break;
        // Within what need not be told apart they are separate all the same, once a plane between them has been met.
        if (result.lower > kRoundingMm &&
            (norm - result.lower <= sought.agreeMm || result.lower >= sought.share * norm)) {
            break;
        }
    }
    result.onFirst = simplex.onFirst();
    result.onSecond = result.onFirst - simplex.nearest();
    result.upper = length(simplex.nearest());
    return result;
}

// Another lower bound of the gap: along one direction, unit.
template <typename A, typename B>
double gapAlong(const A& first, const B& second, SpacePoint away) {
    return dot(away, first.support(-away) - second.support(away));
}

}  // namespace firstoff
