#include "sim/motion/speed_change.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace firstoff {

double secondsOfChange(double from, double to, const PathDynamics& dynamics) {
    const double change = std::abs(to - from);
    if (!dynamics.known() || change == 0) return 0;
    const double a = dynamics.acceleration, j = dynamics.jerk;
    if (j <= 0) return change / a;
    return change * j >= a * a ? change / a + a / j : 2 * std::sqrt(change / j);
}

double wayOfChange(double from, double to, const PathDynamics& dynamics) {
    return (from + to) / 2 * secondsOfChange(from, to, dynamics);
}

namespace {

// Acceleration growing from nothing for `grow` seconds, steady for `steady`, and falling again; signed.
struct Shape {
    double jerk = 0, most = 0;
    double grow = 0, steady = 0;
};

Shape shapeOf(double from, double to, const PathDynamics& dynamics) {
    const double sign = to < from ? -1 : 1, change = std::abs(to - from);
    const double a = dynamics.acceleration, j = dynamics.jerk;
    if (j <= 0) return {0, sign * a, 0, change / a};
    if (change * j >= a * a) return {sign * j, sign * a, a / j, change / a - a / j};
    const double grow = std::sqrt(change / j);
    return {sign * j, sign * j * grow, grow, 0};
}

}  // namespace

double paceWithinChange(double from, double to, const PathDynamics& dynamics, double time) {
    if (!dynamics.known() || from == to) return to;
    const Shape s = shapeOf(from, to, dynamics);
    if (time <= s.grow) return from + s.jerk * time * time / 2;
    const double left = 2 * s.grow + s.steady - time;
    if (left <= s.grow) return to - s.jerk * left * left / 2;
    return from + s.jerk * s.grow * s.grow / 2 + s.most * (time - s.grow);
}

double wayWithinChange(double from, double to, const PathDynamics& dynamics, double time) {
    if (!dynamics.known() || from == to) return from * time;
    const Shape s = shapeOf(from, to, dynamics);
    if (time <= s.grow) return time * (from + s.jerk * time * time / 6);
    const double left = 2 * s.grow + s.steady - time;
    if (left <= s.grow) return wayOfChange(from, to, dynamics) - left * (to - s.jerk * left * left / 6);
    const double grown = s.grow * (from + s.jerk * s.grow * s.grow / 6);
    const double since = time - s.grow, pace = from + s.jerk * s.grow * s.grow / 2;
    return grown + since * (pace + s.most * since / 2);
}

double secondsWithinChange(double from, double to, const PathDynamics& dynamics, double way) {
    const double lasts = secondsOfChange(from, to, dynamics);
    if (way <= 0 || lasts <= 0) return 0;
    if (way >= wayOfChange(from, to, dynamics)) return lasts;
    if (dynamics.jerk <= 0) {
        const double a = to < from ? -dynamics.acceleration : dynamics.acceleration;
        // (v - u) / a with v^2 = u^2 + 2 a s, without the difference of what is nearly alike.
        return std::min(lasts, 2 * way / (from + std::sqrt(std::max(0.0, from * from + 2 * a * way))));
    }
    double before = 0, after = lasts;
    for (int i = 0; i < 60; ++i) {
        const double middle = (before + after) / 2;
        (wayWithinChange(from, to, dynamics, middle) < way ? before : after) = middle;
    }
    return (before + after) / 2;
}

double paceWithinReach(double pace, double way, const PathDynamics& dynamics) {
    if (!dynamics.known()) return std::numeric_limits<double>::infinity();
    if (way <= 0) return pace;
    const double a = dynamics.acceleration, j = dynamics.jerk;
    if (j <= 0) return std::sqrt(pace * pace + 2 * a * way);
    const double turned = a * a / j;  // change of pace from which on the acceleration reaches a
    if ((2 * pace + turned) * a / j <= way) {
        // (v^2 - u^2) / (2 a) + (u + v) a / (2 j) = way
        const double part = pace * (pace - turned) + 2 * a * way;
        return (std::sqrt(turned * turned + 4 * part) - turned) / 2;
    }
    // (2 u + x^2) x = way sqrt(j) with x^2 = v - u: a cubic with one real root (Cardano), made exact by Newton's steps.
    const double c = way * std::sqrt(j);
    const double third = 2 * pace / 3;
    const double u = std::cbrt(c / 2 + std::sqrt(c * c / 4 + third * third * third));
    double x = u - third / u;
    for (int i = 0; i < 2; ++i) {
        const double slope = 3 * x * x + 2 * pace;
        if (slope <= 0) break;
        x = std::max(0.0, x - ((x * x + 2 * pace) * x - c) / slope);
    }
    return pace + x * x;
}

}  // namespace firstoff
