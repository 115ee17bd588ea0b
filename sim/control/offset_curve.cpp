// Notation, in a frame with z to the right and r upwards:
//
//   P        a programmed corner, the end of element a and the start of element b
//   t1, t2   unit direction of travel at the end of a and at the start of b
//   s        +1: the tool stands left of travel (G41), -1: right (G42)
//   n = s · leftOf(t)   unit normal from the profile towards the nose centre
//   rho      nose radius
//   C, R, k  centre and radius of an arc; k = +1 anticlockwise, -1 clockwise
//
//          n ^   centre path, rho away
//       -----+------------------.              Travelling towards the chuck (-z) left of t = (-1, 0) is (0, -1) and
//            |   programmed      \ Q           right is (0, +1): outside turning with the tool above the work is G42.
//       -----+----------------> P \        .
//            t1                  \ t2
//
// The centre path of a line is the line shifted by rho·n; of an arc, the arc about the same centre with
// R' = R - k·s·rho (the tool on the hollow side makes it smaller). The imaginary tip is the centre plus
// rho · tipFromNoseCentre(tip), so the tip runs the same path shifted.
//
// With c = s·(t1 × t2) and d = t1 · t2 the corner is
//   inside   c > 0   the centre turns where the two offsets meet: for two lines Q = P + rho (n1 + n2) / (1 + d)
//   outside  c < 0   d >= 0 (turn of up to 90°): the same Q, on both extended tangents
//                    d < 0: over Q1 = P + rho (n1 + t1) and Q2 = P + rho (n2 - t2)
//   tangent  c = 0   Q = P + rho·n
// Elementary geometry. The tangent from P + rho·n1 to Q has the length e = rho |c| / (1 + d) = rho tan(turn / 2); where
// it leaves an arc of radius R' by no more than e²/2R' <= kTangentMm the arc itself is taken to Q, so that joints that
// are tangent but for the rounding of the program's decimals add nothing.
#include "sim/control/offset_curve.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff::nose {

namespace {

using tolerance::kSamePlaceMm;

// A thousandth of a control's least increment: what an arc may be off its circle where a joint is taken as tangent.
constexpr double kTangentMm = 1e-6;
// Sine of the turn below which a path that comes back on itself is taken as a turn of half a revolution, an outside
// one.
constexpr double kReversal = 1e-9;

Point unit(Point a) {
    return (1 / std::sqrt(dot(a, a))) * a;
}

// Angle from `a` anticlockwise to `b`, in (-pi, pi].
double angleBetween(Point a, Point b) {
    return std::atan2(cross(a, b), dot(a, b));
}

Curve offsetArc(const PathElement& e, double s, double rho) {
    Curve curve;
    const double k = e.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
    const Point u1 = e.from - e.centre;
    const Point u2 = e.to - e.centre;
    const double r1 = length(u1);
    const double r2 = length(u2);
    if (r1 <= kSamePlaceMm || r2 <= kSamePlaceMm) return offsetLine(e, s, rho);
    curve.t1 = (k / r1) * leftOf(u1);
    curve.t2 = (k / r2) * leftOf(u2);
    curve.from = e.from - (k * s * rho / r1) * u1;
    curve.to = e.to - (k * s * rho / r2) * u2;
    curve.centre = e.centre;
    curve.radius = r2 - k * s * rho;
    const double lacking = rho - std::min(r1, r2);
    if (k * s > 0 && lacking > -kSamePlaceMm) {
        curve.vanishes = true;
        curve.lacking = lacking;
        return curve;
    }
    curve.k = k;
    curve.length = turnOf(e) * curve.radius;
    return curve;
}

// Where two curves cross; `miss` says by how much they do not. Curves that miss each other by less than a touch are
// taken to meet where they are nearest.
struct Meeting {
    Point at;
    double miss = 0;
};

Meeting lineMeetsLine(Point a, Point u, Point b, Point v) {
    const double sine = cross(u, v);
    if (std::abs(sine) < kReversal) return {a, std::numeric_limits<double>::infinity()};
    return {a + (cross(b - a, v) / sine) * u};
}

// The crossing nearer to `near`; u is of unit length.
Meeting lineMeetsCircle(Point a, Point u, Point centre, double radius, Point near) {
    const Point foot = a + dot(centre - a, u) * u;
    const double height = distance(centre, foot);
    if (height > radius + tolerance::kTouchMm) return {foot, height - radius};
    const double half = std::sqrt(std::max(0.0, (radius - height) * (radius + height)));
    return {foot + (dot(near - foot, u) < 0 ? -half : half) * u};
}

Meeting circleMeetsCircle(Point c1, double r1, Point c2, double r2, Point near) {
    const double apart = distance(c1, c2);
    const double miss = std::max(apart - (r1 + r2), std::abs(r1 - r2) - apart);
    if (miss > tolerance::kTouchMm || apart <= kSamePlaceMm) return {near, std::max(miss, kSamePlaceMm)};
    const Point u = (1 / apart) * (c2 - c1);
    const double along = (apart * apart + (r1 - r2) * (r1 + r2)) / (2 * apart);
    const double half = std::sqrt(std::max(0.0, (r1 - along) * (r1 + along)));
    const Point v = leftOf(u);
    return {c1 + along * u + (dot(near - c1, v) < 0 ? -half : half) * v};
}

// Where the end of `a`, carried on, meets the start of `b`, carried back.
Meeting meeting(const Curve& a, const Curve& b) {
    const Point near = 0.5 * (a.to + b.from);
    const double rb = b.k == 0 ? 0 : distance(b.from, b.centre);
    if (a.k == 0 && b.k == 0) return lineMeetsLine(a.to, a.t2, b.from, b.t1);
    if (a.k == 0) return lineMeetsCircle(a.to, a.t2, b.centre, rb, near);
    if (b.k == 0) return lineMeetsCircle(b.from, b.t1, a.centre, a.radius, near);
    return circleMeetsCircle(a.centre, a.radius, b.centre, rb, near);
}

Corner single(Point q) {
    return {q, q, q, q};
}

Corner outsideCorner(const Curve& a, const Curve& b, double rho, double d, Point q) {
    Corner corner{q, q, q, q};
    if (d < 0) {
        corner.leave = corner.end = a.to + rho * a.t2;
        corner.lead = corner.start = b.from - rho * b.t1;
    }
    if (a.k != 0) corner.end = a.to;
    if (b.k != 0) corner.start = b.from;
    return corner;
}

}  // namespace

bool hasNoLength(const PathElement& e) {
    return distance(e.from, e.to) <= kSamePlaceMm;
}

double distanceTo(const PathElement& e, Point p) {
    const double toEnds = std::min(distance(p, e.from), distance(p, e.to));
    if (!isArc(e.kind)) {
        const Point t = unit(e.to - e.from);
        const bool beside = dot(p - e.from, t) > 0 && dot(e.to - p, t) > 0;
        return beside ? std::abs(cross(t, p - e.from)) : toEnds;
    }
    const double k = e.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
    const auto turnTo = [&](Point q) {
        const double turn = k * angleBetween(e.from - e.centre, q - e.centre);
        return turn < 0 ? turn + 2 * kPi : turn;
    };
    return turnTo(p) < turnTo(e.to) ? std::abs(distance(p, e.centre) - distance(e.from, e.centre)) : toEnds;
}

double turnOf(const PathElement& e) {
    const double k = e.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
    const double turn = k * angleBetween(e.from - e.centre, e.to - e.centre);
    return turn <= 0 ? turn + 2 * kPi : turn;
}

Point middleOf(const PathElement& e) {
    if (!isArc(e.kind)) return 0.5 * (e.from + e.to);
    const double k = e.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
    const Point u = e.from - e.centre;
    const double half = turnOf(e) / 2;
    return e.centre + std::cos(half) * u + (k * std::sin(half)) * leftOf(u);
}

double Curve::after(Point x) const {
    return k == 0 ? dot(x - from, t1) : k * angleBetween(from - centre, x - centre) * radius;
}

double Curve::before(Point x) const {
    return k == 0 ? dot(to - x, t2) : k * angleBetween(x - centre, to - centre) * radius;
}

Point Curve::directionAt(Point x, Point ofLine) const {
    return k == 0 ? ofLine : k * leftOf(x - centre);
}

Curve offsetLine(const PathElement& e, double s, double rho) {
    Curve curve;
    curve.t1 = curve.t2 = unit(e.to - e.from);
    const Point shift = s * rho * leftOf(curve.t1);
    curve.from = e.from + shift;
    curve.to = e.to + shift;
    curve.length = dot(e.to - e.from, curve.t1);
    return curve;
}

Curve offset(const PathElement& e, double s, double rho) {
    return isArc(e.kind) ? offsetArc(e, s, rho) : offsetLine(e, s, rho);
}

Corner cornerOf(const Curve& a, const Curve& b, Point p, double s, double rho, double& miss) {
    const double c = s * cross(a.t2, b.t1);
    const double d = dot(a.t2, b.t1);
    if (d < 0 && std::abs(c) < kReversal) return outsideCorner(a, b, rho, d, p);
    const Point q = p + (s * rho / (1 + d)) * (leftOf(a.t2) + leftOf(b.t1));
    const double e = rho * std::abs(c) / (1 + d);
    const auto holds = [&](const Curve& x) { return x.k == 0 || e * e <= 2 * x.radius * kTangentMm; };
    if (d > 0 && holds(a) && holds(b)) return single(q);
    if (c < 0) return outsideCorner(a, b, rho, d, q);
    if (a.k == 0 && b.k == 0) return single(q);
    const Meeting x = meeting(a, b);
    miss = x.miss;
    return single(x.at);
}

std::optional<Corner> outsideTurn(const Curve& a, const Curve& b, Point p, double s, double rho) {
    const double c = s * cross(a.t2, b.t1);
    const bool back = dot(a.t2, b.t1) < 0 && std::abs(c) < kReversal;
    if (a.vanishes || b.vanishes || (c > -kReversal && !back)) return std::nullopt;
    double miss = 0;
    return cornerOf(a, b, p, s, rho, miss);
}

std::optional<Point> insideMeeting(const Curve& a, const Curve& b, double s) {
    const Meeting x = meeting(a, b);
    if (x.miss > 0 || a.before(x.at) < -kSamePlaceMm || b.after(x.at) < -kSamePlaceMm) return std::nullopt;
    if (s * cross(a.directionAt(x.at, a.t2), b.directionAt(x.at, b.t1)) <= 0) return std::nullopt;
    return x.at;
}

}  // namespace firstoff::nose
