// Notation: the moves meet at the corner p; u and v are the directions of travel before and behind it; s = +1 where the
// path turns to the left there (cross(u, v) > 0), -1 to the right.
// Chamfer of size c: between the points of both stretches that lie c from p, p - c u and p + c v where they are
// straight; on an arc of radius r that is the angle 2 asin(c / 2r) away from p. Fillet of radius R: its centre lies at
// the distance R on side s of both stretches, so it is where the two stretches, each shifted by R to side s, cross: a
// straight stretch shifts sideways, an arc changes its radius. The fillet touches a straight stretch in the foot of its
// centre, an arc on the line through both centres (elementary geometry).
#include "sim/control/corner.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

bool isArc(const Stretch& s) {
    return s.kind == MoveKind::ArcClockwise || s.kind == MoveKind::ArcAnticlockwise;
}
double turn(const Stretch& s) {
    return s.kind == MoveKind::ArcAnticlockwise ? 1.0 : -1.0;
}

Point unit(Point a) {
    return (1.0 / length(a)) * a;
}

// Direction of travel at `at`, which lies on the stretch.
Point heading(const Stretch& s, Point at) {
    if (!isArc(s)) return unit(s.to - s.from);
    return turn(s) * leftOf(unit(at - s.centre));
}

// Length along the stretch from `a` to `b`, both on it, in the sense of travel.
double along(const Stretch& s, Point a, Point b) {
    if (!isArc(s)) return dot(b - a, heading(s, a));
    const Point ra = a - s.centre;
    const Point rb = b - s.centre;
    double angle = turn(s) * std::atan2(cross(ra, rb), dot(ra, rb));
    if (angle < -1e-9) angle += 2 * kPi;
    return angle * length(ra);
}

// A stretch shifted by `by` to the left (negative: to the right): a line through `point` or a circle around it.
struct Shifted {
    Point point;
    Point direction;    // of a line
    double radius = 0;  // of a circle; 0: a line
    bool possible = true;
};

Shifted shift(const Stretch& s, double by) {
    if (!isArc(s)) {
        const Point u = unit(s.to - s.from);
        return {s.from + by * leftOf(u), u, 0, true};
    }
    const double radius = distance(s.from, s.centre) - turn(s) * by;
    return {s.centre, {}, radius, radius > tolerance::kSamePlaceMm};
}

std::vector<Point> crossings(const Shifted& a, const Shifted& b) {
    if (a.radius == 0 && b.radius == 0) {
        const double denominator = cross(a.direction, b.direction);
        if (std::abs(denominator) < 1e-9) return {};
        const double t = cross(b.point - a.point, b.direction) / denominator;
        return {a.point + t * a.direction};
    }
    if (a.radius == 0) {
        const Point foot = a.point + dot(b.point - a.point, a.direction) * a.direction;
        const double squared = b.radius * b.radius - dot(foot - b.point, foot - b.point);
        if (squared < 0) return {};
        const Point half = std::sqrt(squared) * a.direction;
        return {foot - half, foot + half};
    }
    if (b.radius == 0) return crossings(b, a);
    const double d = distance(a.point, b.point);
    if (d < tolerance::kSamePlaceMm) return {};
    const double x = (d * d + a.radius * a.radius - b.radius * b.radius) / (2 * d);
    const double squared = a.radius * a.radius - x * x;
    if (squared < 0) return {};
    const Point u = (1.0 / d) * (b.point - a.point);
    const Point half = std::sqrt(squared) * leftOf(u);
    return {a.point + x * u - half, a.point + x * u + half};
}

Point touch(const Stretch& s, Point centre) {
    if (!isArc(s)) {
        const Point u = unit(s.to - s.from);
        return s.from + dot(centre - s.from, u) * u;
    }
    return s.centre + distance(s.from, s.centre) * unit(centre - s.centre);
}

// How much of the first leg's end and the second leg's beginning a corner takes; says so when a leg is too short.
void checkLegs(CornerFit& fit, const Stretch& first, const Stretch& second, double takesFirst, double takesSecond) {
    const double haveFirst = along(first, first.from, first.to);
    const double haveSecond = along(second, second.from, second.to);
    if (std::min(takesFirst, takesSecond) < -tolerance::kSamePlaceMm) {
        fit.fault = CornerFit::Fault::TooLarge;
        return;
    }
    const bool firstShort = takesFirst > haveFirst + tolerance::kSamePlaceMm;
    if (!firstShort && takesSecond <= haveSecond + tolerance::kSamePlaceMm) return;
    fit.fault = CornerFit::Fault::LegTooShort;
    fit.needMm = firstShort ? takesFirst : takesSecond;
    fit.haveMm = firstShort ? haveFirst : haveSecond;
}

// The point of the stretch at the straight distance `away` from its end (back = -1) or its beginning (+1), and how much
// of the stretch lies between; nothing where no point of it is so far away.
struct Mark {
    Point at;
    double takes = 0;
    bool possible = true;
};

Mark markAt(const Stretch& s, Point corner, double away, double back) {
    if (!isArc(s)) return {corner + back * away * heading(s, corner), away, true};
    const Point spoke = corner - s.centre;
    const double radius = length(spoke);
    if (away > 2 * radius) return {corner, 0, false};
    const double angle = 2 * std::asin(away / (2 * radius));
    const double turned = turn(s) * back * angle;
    return {s.centre + std::cos(turned) * spoke + std::sin(turned) * leftOf(spoke), angle * radius, true};
}

CornerFit chamfer(const Stretch& first, const Stretch& second, double size) {
    CornerFit fit;
    const Mark start = markAt(first, first.to, size, -1);
    const Mark end = markAt(second, first.to, size, 1);
    if (!start.possible || !end.possible) {
        fit.fault = CornerFit::Fault::TooLarge;
        return fit;
    }
    fit.start = start.at;
    fit.end = end.at;
    checkLegs(fit, first, second, start.takes, end.takes);
    return fit;
}

CornerFit fillet(const Stretch& first, const Stretch& second, double side, double radius) {
    CornerFit fit;
    fit.fault = CornerFit::Fault::TooLarge;
    fit.kind = side > 0 ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
    const Shifted a = shift(first, side * radius);
    const Shifted b = shift(second, side * radius);
    if (!a.possible || !b.possible) return fit;
    double nearest = 0;
    for (Point centre : crossings(a, b)) {
        const double away = distance(centre, first.to);
        if (fit.fault != CornerFit::Fault::TooLarge && away >= nearest) continue;
        CornerFit candidate = fit;
        candidate.fault = CornerFit::Fault::None;
        candidate.centre = centre;
        candidate.start = touch(first, centre);
        candidate.end = touch(second, centre);
        checkLegs(candidate, first, second, along(first, candidate.start, first.to),
                  along(second, second.from, candidate.end));
        nearest = away;
        fit = candidate;
    }
    return fit;
}

}  // namespace

CornerFit fitCorner(const Stretch& first, const Stretch& second, const CornerWish& wish) {
    const Point u = heading(first, first.to);
    const Point v = heading(second, second.from);
    const double turning = cross(u, v);
    if (std::abs(turning) < 1e-9) {
        CornerFit none;
        none.fault = CornerFit::Fault::NoCorner;
        return none;
    }
    if (wish.towards != Point{} && dot(v, wish.towards) <= 0) {
        CornerFit astray;
        astray.fault = CornerFit::Fault::OtherWay;
        return astray;
    }
    if (wish.fillet) return fillet(first, second, turning > 0 ? 1.0 : -1.0, wish.size);
    return chamfer(first, second, wish.size);
}

// What a corner takes of both moves grows with its size, so the largest one is found by halving.
double largestCorner(const Stretch& first, const Stretch& second, bool fillet) {
    constexpr double kLargest = 1e6;  // mm; between arcs that curve towards each other every fillet fits
    constexpr double kPerMicrometre = 1000;
    const auto fits = [&](double size) {
        return fitCorner(first, second, {size, fillet, {}}).fault == CornerFit::Fault::None;
    };
    double fitting = 0;
    double tooLarge = 1;
    for (; tooLarge < kLargest && fits(tooLarge); tooLarge *= 2) fitting = tooLarge;
    for (int i = 0; i < 60; ++i) {
        const double middle = (fitting + tooLarge) / 2;
        (fits(middle) ? fitting : tooLarge) = middle;
    }
    return std::floor(fitting * kPerMicrometre) / kPerMicrometre;
}

}  // namespace firstoff
