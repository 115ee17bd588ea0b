// What compensation is for, checked by a second method: the nose circle, put on many places of the path, never reaches
// into the programmed profile and touches every element of it. Distances are taken to the programmed lines and arcs
// themselves.
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/control/nose_compensation.h"

namespace firstoff {
namespace {

bool isArc(const PathElement& e) {
    return e.kind == MoveKind::ArcClockwise || e.kind == MoveKind::ArcAnticlockwise;
}

double turnOf(const PathElement& e) {
    const Point a = e.from - e.centre, b = e.to - e.centre;
    double turn = std::atan2(cross(a, b), dot(a, b));
    if (e.kind == MoveKind::ArcClockwise) turn = -turn;
    return turn < 0 ? turn + 2 * kPi : turn;
}

Point at(const PathElement& e, double fraction) {
    if (!isArc(e)) return e.from + fraction * (e.to - e.from);
    const double angle = (e.kind == MoveKind::ArcClockwise ? -1 : 1) * turnOf(e) * fraction;
    const Point u = e.from - e.centre;
    return e.centre + std::cos(angle) * u + std::sin(angle) * leftOf(u);
}

double distanceTo(const PathElement& e, Point p) {
    const double toEnds = std::min(distance(p, e.from), distance(p, e.to));
    if (!isArc(e)) {
        const Point t = e.to - e.from;
        const double along = dot(p - e.from, t) / dot(t, t);
        return along < 0 || along > 1 ? toEnds : std::abs(cross(t, p - e.from)) / length(t);
    }
    PathElement upToP = e;
    upToP.to = p;
    return turnOf(upToP) <= turnOf(e) ? std::abs(distance(p, e.centre) - distance(e.from, e.centre)) : toEnds;
}

// A profile for an outside tool feeding towards the chuck: z never grows, r never shrinks. `heading` is the angle of
// travel from -z towards +r.
struct Profile {
    std::vector<PathElement> elements;
    Point at{0, 10};
    double heading = 0;

    static Point direction(double heading) { return {-std::cos(heading), std::sin(heading)}; }
    void line(double angle, double length) {
        const Point to = at + length * direction(angle);
        elements.push_back({at, to, {}, MoveKind::Feed, static_cast<std::uint32_t>(elements.size())});
        at = to;
        heading = angle;
    }
    void arc(double from, double until, double radius) {
        const double k = until > from ? -1 : 1;
        const Point centre = at + k * radius * leftOf(direction(from));
        const Point to = centre - k * radius * leftOf(direction(until));
        elements.push_back({at, to, centre, k < 0 ? MoveKind::ArcClockwise : MoveKind::ArcAnticlockwise,
                            static_cast<std::uint32_t>(elements.size())});
        at = to;
        heading = until;
    }
};

// The whole range from the first case on.
int pick(int low, int high) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(low, high + 1));
}
double pick(double low, double high) {
    return low + (high - low) * pick(0, 10000) / 10000.0;
}
bool toss() {
    return pick(0, 1) == 1;
}

// `least` is the shortest line; arcs are at least 30° of a radius from `least` up.
Profile anyProfile(double least, double most) {
    Profile profile;
    profile.at = {5, 8};
    profile.line(pick(0.0, kPi / 2), pick(1.0, 6.0));  // start-up
    const int count = pick(2, 12);
    for (int i = 0; i < count; ++i) {
        const double from = toss() ? profile.heading : pick(0.0, kPi / 2);
        if (toss()) {
            profile.line(from, pick(least, most));
            continue;
        }
        const bool up = from < kPi / 4;
        const double until = up ? pick(from + kPi / 6, kPi / 2) : pick(0.0, from - kPi / 6);
        profile.arc(from, until, pick(least, most));
    }
    return profile;
}

struct Compensated {
    std::vector<Point> centres;  // many, along the compensated part
    std::vector<PathElement> path;
    std::vector<CompensationIssue> issues;
};

Compensated compensated(const Profile& profile, double rho, int tip) {
    Compensated result;
    result.path = compensate(profile.elements, {Compensation::Right, rho, tip}, false, result.issues);
    for (const PathElement& e : result.path) {
        if (e.tag == 0) continue;
        for (int i = 0; i <= 64; ++i) result.centres.push_back(at(e, i / 64.0) - rho * tipFromNoseCentre(tip));
    }
    return result;
}

// Where a joint is taken as tangent each of the two arcs may be off its circle by kTangentMm of offset_curve.cpp;
// the rest is rounding.
constexpr double kAllowed = 2.1e-6;

void neverReachesIn(const Profile& profile, const Compensated& c, double rho, double allowed) {
    for (Point centre : c.centres) {
        double nearest = std::numeric_limits<double>::infinity();
        for (const PathElement& e : profile.elements) {
            if (e.tag > 0) nearest = std::min(nearest, distanceTo(e, centre));
        }
        RC_ASSERT(nearest >= rho - allowed);
    }
}

// Path stretches of an element: its own kind, parallel to it. The middle one touches it.
void touchesEveryElement(const Profile& profile, const Compensated& c, double rho, int tip) {
    for (const PathElement& e : profile.elements) {
        if (e.tag == 0) continue;
        double nearest = std::numeric_limits<double>::infinity();
        for (const PathElement& p : c.path) {
            if (p.tag != e.tag || p.kind != e.kind) continue;
            for (int i = 0; i <= 64; ++i) {
                nearest = std::min(nearest, distanceTo(e, at(p, i / 64.0) - rho * tipFromNoseCentre(tip)));
            }
        }
        RC_ASSERT(std::abs(nearest - rho) <= kAllowed);
    }
}

void isWhole(const Profile& profile, const Compensated& c) {
    RC_ASSERT(c.path.front().from == profile.elements.front().from);
    std::uint32_t tag = 0;
    for (std::size_t i = 0; i < c.path.size(); ++i) {
        const PathElement& p = c.path[i];
        RC_ASSERT(std::isfinite(p.to.z) && std::isfinite(p.to.r));
        if (i > 0) RC_ASSERT(p.from == c.path[i - 1].to);
        RC_ASSERT(p.tag == tag || p.tag == tag + 1);
        tag = p.tag;
    }
    RC_ASSERT(tag == profile.elements.back().tag);
}

RC_GTEST_PROP(NoseCompensationEnvelope, NeverReachesInAndTouchesEveryElementWithRoom, ()) {
    const Profile profile = anyProfile(4, 12);
    const double rho = pick(0.1, 1.2);
    const int tip = pick(0, 9);
    const Compensated c = compensated(profile, rho, tip);
    isWhole(profile, c);
    RC_TAG(c.issues.empty() ? "with room" : "without room");
    if (!c.issues.empty()) return;
    neverReachesIn(profile, c, rho, kAllowed);
    touchesEveryElement(profile, c, rho, tip);
}

// Elements down to a hundredth of a millimetre. Touching each is then not possible; staying out of the profile is,
// where nothing was reported. A lack of less than a touch
// along an element is not; across its neighbours that is up to 1 + sqrt(2) of it.
RC_GTEST_PROP(NoseCompensationEnvelope, StaysOutOfProfilesOfShortElementsWhereNothingIsReported, ()) {
    const Profile profile = anyProfile(0.01, 3);
    const double rho = pick(0.1, 1.2);
    const Compensated c = compensated(profile, rho, 3);
    isWhole(profile, c);
    RC_TAG(c.issues.empty() ? "with room" : "without room");
    if (c.issues.empty()) neverReachesIn(profile, c, rho, 3 * tolerance::kTouchMm);
}

// However crooked the profile, the path is whole, finite and never strays from it further than the corners reach: a
// nose radius from the profile, or sqrt(2) of it at an outside corner.
RC_GTEST_PROP(NoseCompensationEnvelope, StaysByTheProfileWhateverItIs, ()) {
    Profile profile;
    const int count = pick(2, 30);
    for (int i = 0; i < count; ++i) {
        const double from = pick(-kPi, kPi);
        if (pick(0, 2) > 0) {
            profile.line(from, pick(0.001, 3.0));
        } else {
            profile.arc(from, from + pick(-4.0, 4.0) + 0.001, pick(0.05, 3.0));
        }
    }
    const double rho = pick(0.1, 1.2);
    const Compensated c = compensated(profile, rho, 3);
    isWhole(profile, c);
    for (const PathElement& p : c.path) {
        const Point centre = p.to - rho * tipFromNoseCentre(3);
        double nearest = std::numeric_limits<double>::infinity();
        for (const PathElement& e : profile.elements) nearest = std::min(nearest, distanceTo(e, centre));
        RC_ASSERT(nearest <= std::sqrt(2.0) * rho + tolerance::kTouchMm);  // what is lacking by less is run as it is
    }
}

// The same job seen in a mirror: left and right change places, and so do the tips.
RC_GTEST_PROP(NoseCompensationEnvelope, MirroredJobGivesTheMirroredPath, ()) {
    const Profile profile = anyProfile(0.3, 6);
    const double rho = pick(0.1, 1.2);
    const bool inZ = toss();  // else in r: outside and bore twins
    static constexpr int kTipInZ[] = {0, 2, 1, 4, 3, 7, 6, 5, 8, 9};
    static constexpr int kTipInR[] = {0, 4, 3, 2, 1, 5, 8, 7, 6, 9};
    const int tip = pick(0, 9);
    const auto flip = [inZ](Point p) { return inZ ? Point{-p.z, p.r} : Point{p.z, -p.r}; };
    const auto mirrored = [&](std::vector<PathElement> elements) {
        for (PathElement& e : elements) {
            e.from = flip(e.from);
            e.to = flip(e.to);
            e.centre = isArc(e) ? flip(e.centre) : Point{};
            if (isArc(e)) {
                e.kind = e.kind == MoveKind::ArcClockwise ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
            }
        }
        return elements;
    };
    std::vector<CompensationIssue> issues, twinIssues;
    const auto path = mirrored(compensate(profile.elements, {Compensation::Right, rho, tip}, true, issues));
    const auto twin = compensate(mirrored(profile.elements),
                                 {Compensation::Left, rho, inZ ? kTipInZ[tip] : kTipInR[tip]}, true, twinIssues);
    RC_ASSERT(path.size() == twin.size());
    RC_ASSERT(issues.size() == twinIssues.size());
    for (std::size_t i = 0; i < path.size(); ++i) {
        RC_ASSERT(path[i].kind == twin[i].kind && path[i].tag == twin[i].tag);
        RC_ASSERT(distance(path[i].to, twin[i].to) <
                  1e-9);  // rounding, made larger where offsets meet at a small angle
    }
}

}  // namespace
}  // namespace firstoff
