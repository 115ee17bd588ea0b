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

// Up to four points of C, and which points of the solids they come from.
class Simplex {
public:
    struct Corner {
        SpacePoint w, a, b;
    };

    // Adds a corner and reduces to the fewest corners whose hull holds its point nearest to the origin, which is then
    // nearest(). False, and unchanged, if that came no nearer.
    bool add(const Corner& corner);
    bool has(SpacePoint w) const;
    bool holdsOrigin() const { return count_ == 4; }
    SpacePoint nearest() const { return nearest_; }
    SpacePoint onFirst() const;
    SpacePoint onSecond() const;

private:
    std::array<Corner, 4> corners_{};
    std::array<double, 4> share_{};
    int count_ = 0;
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
        const SpacePoint a = first.support(-v), b = second.support(v);
        const SpacePoint w = a - b;
        const double lower = dot(v, w) / norm;
        if (lower > result.lower) {
            result.lower = lower;
            result.away = (1 / norm) * v;
        }
        if (result.lower >= sought.enough) {
            if (step == 0) {
                result.onFirst = a;
                result.onSecond = b;
                result.upper = length(w);
            }
            return result;
        }
        if (step > 0 && (simplex.has(w) || !simplex.add({w, a, b}))) return result;
        if (step == 0) simplex.add({w, a, b});
        v = simplex.nearest();
        norm = length(v);
        result.onFirst = simplex.onFirst();
        result.onSecond = simplex.onSecond();
        result.upper = norm;
        if (simplex.holdsOrigin() || norm <= kRoundingMm) return result;
        // Within what need not be told apart they are separate all the same, once a plane between them has been met.
        if (result.lower > kRoundingMm &&
            (norm - result.lower <= sought.agreeMm || result.lower >= sought.share * norm)) {
            return result;
        }
    }
    return result;
}

// Another lower bound of the gap: along one direction, unit.
template <typename A, typename B>
double gapAlong(const A& first, const B& second, SpacePoint away) {
    return dot(away, first.support(-away) - second.support(away));
}

}  // namespace firstoff
