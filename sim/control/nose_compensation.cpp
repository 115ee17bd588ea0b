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
//
// An element trimmed at an inside corner by more than its length would be run backwards. It is taken out, and the
// element before it is joined to the one after it; if that one is now too short it goes too. Each element is put in and
// taken out once at most, so the whole is linear.
#include "sim/control/nose_compensation.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

using tolerance::kSamePlaceMm;

// A thousandth of a control's least increment: what an arc may be off its circle where a joint is taken as tangent.
constexpr double kTangentMm = 1e-6;
// Sine of the turn below which a path that comes back on itself is taken as a turn of half a revolution, an outside
// one.
constexpr double kReversal = 1e-9;

bool isArc(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

bool hasNoLength(const PathElement& e) {
    return distance(e.from, e.to) <= kSamePlaceMm;
}

Point unit(Point a) {
    return (1 / std::sqrt(dot(a, a))) * a;
}

// Angle from `a` anticlockwise to `b`, in (-pi, pi].
double angleBetween(Point a, Point b) {
    return std::atan2(cross(a, b), dot(a, b));
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

// Centre path of one element before its ends are joined to its neighbours.
struct Curve {
    Point from, to;  // perpendicular to the ends of the element
    Point t1, t2;  // direction of travel at `from` and at `to`; those of the element, also where the nose does not fit
    Point centre;
    double k = 0;       // 0: a line
    double radius = 0;  // R' at `to`; an arc whose ends differ a little in radius keeps that difference
    double length = 0;
    double lacking = 0;     // by how much the nose is larger than the hollow arc it should run in
    bool vanishes = false;  // a hollow arc with no path for the centre

    // Signed length from `from` forwards to x, and from x forwards to `to`.
    double after(Point x) const {
        return k == 0 ? dot(x - from, t1) : k * angleBetween(from - centre, x - centre) * radius;
    }
    double before(Point x) const {
        return k == 0 ? dot(to - x, t2) : k * angleBetween(x - centre, to - centre) * radius;
    }
    // Of travel, of any length.
    Point directionAt(Point x, Point ofLine) const { return k == 0 ? ofLine : k * leftOf(x - centre); }
};

Curve offsetLine(const PathElement& e, double s, double rho) {
    Curve curve;
    curve.t1 = curve.t2 = unit(e.to - e.from);
    const Point shift = s * rho * leftOf(curve.t1);
    curve.from = e.from + shift;
    curve.to = e.to + shift;
    curve.length = dot(e.to - e.from, curve.t1);
    return curve;
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
    double turn = k * angleBetween(u1, u2);
    if (turn <= 0) turn += 2 * kPi;
    curve.k = k;
    curve.length = turn * curve.radius;
    return curve;
}

Curve offset(const PathElement& e, double s, double rho) {
    return isArc(e.kind) ? offsetArc(e, s, rho) : offsetLine(e, s, rho);
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

// Where `b` meets a curve `a` that is not its neighbour, if that takes something off both and the path turns inwards
// there.
std::optional<Point> insideMeeting(const Curve& a, const Curve& b, double s) {
    const Meeting x = meeting(a, b);
    if (x.miss > 0 || a.before(x.at) < -kSamePlaceMm || b.after(x.at) < -kSamePlaceMm) return std::nullopt;
    if (s * cross(a.directionAt(x.at, a.t2), b.directionAt(x.at, b.t1)) <= 0) return std::nullopt;
    return x.at;
}

// Where the centre path turns from one curve to the next: it leaves the one at `end` and runs straight over `leave` and
// `lead` to `start` on the other. Mostly all four are one point.
struct Corner {
    Point end, leave, lead, start;
};

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

// Corner of two elements that follow each other at P; `miss` is more than zero if their offsets do not meet.
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

// What has become of one element.
struct Piece {
    std::uint32_t element = 0;
    std::int32_t below = -1;  // the piece before it that still has its place; -1: none, or none that can be given up
    Point lead, start, end, leave;
    double trimmed = 0;  // taken off at the start
    double lacking = 0;  // length that neighbours wanted of it beyond its own; of a hollow arc: radius
    bool tooHollow = false;
    bool straight = false;  // has lost its own shape: a straight piece from `start` to `end`
    bool gone = false;      // has lost its place too
};

class Compensator {
public:
    Compensator(const std::vector<PathElement>& elements, const CompensationSetting& setting,
                std::vector<CompensationIssue>& issues)
        : elements_(elements),
          issues_(issues),
          s_(setting.side == Compensation::Left ? 1 : -1),
          rho_(setting.noseRadius),
          tip_(setting.noseRadius * tipFromNoseCentre(setting.tipNumber)) {}

    std::vector<PathElement> run(std::size_t startUp, std::size_t end, bool cancelled);

private:
    void add(std::size_t index);
    void join(Piece& piece, const Curve& curve);
    void turn(const Corner& corner, Piece& piece, const Curve& curve);
    std::int32_t joinPastTop(Piece& piece, const Curve& curve);
    void link(std::int32_t out, Piece& piece, const Curve& curve);
    void giveUp(std::int32_t from, std::int32_t upTo);
    void finish();
    void report(CompensationIssue::Kind kind, const PathElement& e, double amount = 0);
    void reportLoss(const Piece& piece);

    void emitStartUp(const PathElement& e);
    void emitPiece(const Piece& piece);
    void emitStraight(Point to, const PathElement& e);
    void emitJoint(Point centre, const PathElement& e);

    const std::vector<PathElement>& elements_;
    std::vector<CompensationIssue>& issues_;
    const double s_;
    const double rho_;
    const Point tip_;
    std::vector<Piece> pieces_;  // one for each compensated element that has a length, in order
    Curve topCurve_;             // of pieces_.back()
    std::vector<PathElement> out_;
    Point at_;         // imaginary tip at the end of `out_`
    double lost_ = 0;  // of the last elements in a row that lost too little to be reported
};

void Compensator::report(CompensationIssue::Kind kind, const PathElement& e, double amount) {
    issues_.push_back({kind, e.tag, amount});
}

// What is lost of a piece that no longer runs along its element: the length that is lacking; by how much the nose, from
// where it stands instead, misses the element; the link in place of an arc the size of the nose. Less than a touch is
// the rounding of the program's decimals, but many short pieces in a row may each lose less than that and count
// together.
void Compensator::reportLoss(const Piece& piece) {
    const PathElement& e = elements_[piece.element];
    if (piece.tooHollow && piece.lacking > tolerance::kTouchMm) {
        return report(CompensationIssue::Kind::InsideArcTooSmall, e, piece.lacking);
    }
    double missed = 0;
    if (piece.gone) {
        missed = std::abs(distanceTo(e, at_ - tip_) - rho_);
    } else if (piece.tooHollow) {
        missed = distance(piece.start, piece.end);
    }
    lost_ += std::max(piece.lacking, missed);
    if (lost_ <= tolerance::kTouchMm) return;
    report(CompensationIssue::Kind::NoRoom, e, lost_);
    lost_ = 0;
}

void Compensator::add(std::size_t index) {
    const Curve curve = offset(elements_[index], s_, rho_);
    Piece piece;
    piece.element = static_cast<std::uint32_t>(index);
    piece.lead = piece.start = curve.from;
    piece.end = piece.leave = curve.to;
    piece.straight = piece.tooHollow = curve.vanishes;
    piece.lacking = curve.lacking;
    if (!pieces_.empty()) join(piece, curve);
    topCurve_ = curve;
    pieces_.push_back(piece);
}

void Compensator::join(Piece& piece, const Curve& curve) {
    Piece& top = pieces_.back();
    piece.below = static_cast<std::int32_t>(pieces_.size()) - 1;
    if (curve.vanishes) {  // what becomes of it shows when the element after it comes
        piece.lead = piece.start = top.end;
        return;
    }
    if (topCurve_.vanishes) {
        const std::int32_t out = joinPastTop(piece, curve);
        if (out >= 0) link(out, piece, curve);
        return;
    }
    double miss = 0;
    const Corner corner = cornerOf(topCurve_, curve, elements_[piece.element].from, s_, rho_, miss);
    const double lacking = miss > 0 ? miss : top.trimmed + topCurve_.before(corner.end) - topCurve_.length;
    if (miss == 0 && lacking <= kSamePlaceMm) return turn(corner, piece, curve);
    top.lacking = lacking;
    const std::int32_t out = joinPastTop(piece, curve);
    if (out < 0) return;
    if (miss > 0 || lacking > tolerance::kTouchMm) return link(out, piece, curve);
    // Backwards by less than a touch is better than a link to the perpendicular point.
    turn(corner, piece, curve);
    top.straight = true;
    piece.below = -1;
}

void Compensator::turn(const Corner& corner, Piece& piece, const Curve& curve) {
    Piece& top = pieces_.back();
    top.end = corner.end;
    top.leave = corner.leave;
    piece.lead = corner.lead;
    piece.start = corner.start;
    piece.trimmed = curve.after(corner.start);
}

// Joins a new piece to one below the top and gives up those between. If none meets it, changes nothing and returns the
// deepest one that has no room; otherwise returns -1.
std::int32_t Compensator::joinPastTop(Piece& piece, const Curve& curve) {
    const std::int32_t top = piece.below;
    std::int32_t out = top;
    for (std::int32_t below = pieces_[out].below; below >= 0; out = below, below = pieces_[out].below) {
        Piece& candidate = pieces_[below];
        const Curve a = offset(elements_[candidate.element], s_, rho_);
        if (a.vanishes) continue;
        const auto x = insideMeeting(a, curve, s_);
        if (!x) break;
        const double lacking = candidate.trimmed + a.before(*x) - a.length;
        if (lacking <= kSamePlaceMm) {
            giveUp(top, out);
            candidate.end = candidate.leave = piece.lead = piece.start = *x;
            piece.trimmed = curve.after(*x);
            piece.below = below;
            return -1;
        }
        candidate.lacking = lacking;
    }
    return out;
}

// Makes the piece `out` a straight link to the perpendicular start of a new piece, and gives up those between.
void Compensator::link(std::int32_t out, Piece& piece, const Curve& curve) {
    giveUp(piece.below, out);
    Piece& link = pieces_[out];
    link.gone = false;
    link.straight = true;
    link.end = link.leave = piece.lead = piece.start = curve.from;
    piece.below = -1;
}

// Takes away the pieces from `from` down to `upTo`.
void Compensator::giveUp(std::int32_t from, std::int32_t upTo) {
    for (std::int32_t i = from; i != upTo; i = pieces_[i].below) pieces_[i].gone = true;
    pieces_[upTo].gone = true;
}

void Compensator::finish() {
    if (pieces_.empty()) return;
    Piece& last = pieces_.back();
    const double lacking = topCurve_.vanishes ? 0 : last.trimmed - topCurve_.length;
    if (lacking <= kSamePlaceMm) return;
    last.lacking = lacking;
    last.straight = true;
}

void Compensator::emitStraight(Point to, const PathElement& e) {
    out_.push_back({at_, to, {}, e.kind == MoveKind::Rapid ? MoveKind::Rapid : MoveKind::Feed, e.tag});
    at_ = to;
}

void Compensator::emitJoint(Point centre, const PathElement& e) {
    if (distance(at_, centre + tip_) > kSamePlaceMm) emitStraight(centre + tip_, e);
}

void Compensator::emitStartUp(const PathElement& e) {
    if (isArc(e.kind)) report(CompensationIssue::Kind::StartOnArc, e);
    const Point target = pieces_.empty() ? offsetLine(e, s_, rho_).to : pieces_.front().lead;
    emitStraight(target + tip_, e);
}

void Compensator::emitPiece(const Piece& piece) {
    const PathElement& e = elements_[piece.element];
    if (piece.gone || piece.straight) {
        reportLoss(piece);
    } else {
        lost_ = 0;
    }
    if (piece.gone) return emitStraight(at_, e);
    emitJoint(piece.start, e);
    if (isArc(e.kind) && !piece.straight && distance(piece.start, piece.end) > kSamePlaceMm) {
        out_.push_back({at_, piece.end + tip_, e.centre + tip_, e.kind, e.tag});
        at_ = piece.end + tip_;
    } else {
        emitStraight(piece.end + tip_, e);
    }
    emitJoint(piece.leave, e);
}

// Elements before `startUp` have no length, those from `end` on are not compensated.
std::vector<PathElement> Compensator::run(std::size_t startUp, std::size_t end, bool cancelled) {
    pieces_.reserve(end - startUp);
    for (std::size_t i = startUp + 1; i < end; ++i) {
        if (!hasNoLength(elements_[i])) add(i);
    }
    finish();

    out_.reserve(elements_.size() + elements_.size() / 8);
    at_ = elements_.front().from;
    auto piece = pieces_.begin();
    const PathElement* before = &elements_[startUp];
    for (std::size_t i = 0; i < end; ++i) {
        const PathElement& e = elements_[i];
        if (i == startUp) {
            emitStartUp(e);
        } else if (piece == pieces_.end() || piece->element != i) {
            emitStraight(at_, e);
        } else {
            if (!piece->gone) {
                emitJoint(piece->lead, *before);  // across a sharp outside corner
                before = &e;
            }
            emitPiece(*piece++);
        }
    }
    if (cancelled) {
        const PathElement& e = elements_.back();
        if (isArc(e.kind)) report(CompensationIssue::Kind::CancelOnArc, e);
        emitStraight(e.to, e);
    }
    return std::move(out_);
}

}  // namespace

std::vector<PathElement> compensate(const std::vector<PathElement>& elements, const CompensationSetting& setting,
                                    bool cancelled, std::vector<CompensationIssue>& issues) {
    assert(setting.noseRadius >= 0);
    if (setting.side == Compensation::Off) return elements;
    const std::size_t end = elements.size() - (cancelled && !elements.empty() ? 1 : 0);
    std::size_t startUp = 0;
    while (startUp < end && hasNoLength(elements[startUp])) ++startUp;
    if (startUp == end) return elements;  // switched off before anything moved
    return Compensator(elements, setting, issues).run(startUp, end, cancelled);
}

}  // namespace firstoff
