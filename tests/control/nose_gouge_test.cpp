// Where the compensated nose cuts into the contour, against the polygon library GEOS: the part as a polygon, taken in
// by a depth; the nose enters it by more than that where the centre path comes nearer to it than the nose radius.
#include "sim/control/nose_gouge.h"

#include <geos_c.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {
namespace {

struct Contour {
    std::vector<PathElement> elements;
    Point at;
    explicit Contour(Point start) : at(start) {}
    Contour& to(Point p, MoveKind kind = MoveKind::Feed, Point centre = {}) {
        elements.push_back({at, p, centre, kind, static_cast<std::uint32_t>(elements.size())});
        at = p;
        return *this;
    }
    Contour& clockwise(Point p, Point centre) { return to(p, MoveKind::ArcClockwise, centre); }
    Contour& anticlockwise(Point p, Point centre) { return to(p, MoveKind::ArcAnticlockwise, centre); }
};

struct Looked {
    std::vector<PathElement> path;
    std::vector<CompensationIssue> issues;
    std::vector<NoseGouge> gouges;
};

Looked look(const std::vector<PathElement>& elements, Compensation side, double rho, int tip, bool cancelled = false) {
    Looked result;
    const CompensationSetting setting{side, rho, tip};
    result.path = compensate(elements, setting, cancelled, result.issues);
    result.gouges = noseGouges(elements, result.path, setting, cancelled, result.issues);
    return result;
}

// Coordinates up to 100 mm and a handful of operations on them.
constexpr double kRounding = 1e-9;

struct Row {
    const char* name;
    Contour contour;
    bool cancelled;
    // The one gouge, by elementary geometry; depth 0: none.
    std::uint32_t tag, into;
    double depth;
};

// Nose radius 1, tool on the right, tip 3.
TEST(NoseGouge, Table) {
    const Row rows[] = {
        {"shoulder", Contour({5, 20}).to({2, 10}).to({-10, 10}).to({-10, 20}).to({-30, 20}), false, 0, 0, 0},
        {"groove as wide as the nose",
         Contour({5, 20}).to({2, 20}).to({-10, 20}).to({-10, 10}).to({-12, 10}).to({-12, 20}).to({-20, 20}), false, 0,
         0, 0},
        // The floor cannot be reached: the way there ends square on the foot of the far wall, a nose radius under it.
        {"groove of 1.5",
         Contour({5, 20}).to({2, 20}).to({-10, 20}).to({-10, 10}).to({-11.5, 10}).to({-11.5, 20}).to({-20, 20}), false,
         3, 3, 1},
        // Start-up A rolls round the first point of the contour, which is in the air.
        {"start-up round an outside corner", Contour({0, 5}).to({0, 10}).to({-10, 10}), false, 0, 0, 0},
        // From the floor of a recess of 10 straight home, from (-20, 11) to (6, 14): the centre crosses the wall. What
        // is said is where it stands square under the top of the wall, 0.893 behind it.
        {"cancel through a wall", Contour({5, 30}).to({2, 20}).to({-10, 20}).to({-10, 10}).to({-20, 10}).to({5, 13}),
         true, 4, 2, 1 + 26 * 287 / 685.0 - 10},
        {"cancel away from it", Contour({5, 20}).to({2, 10}).to({-10, 10}).to({-10, 20}), true, 0, 0, 0},
        {"way back high enough", Contour({5, 20}).to({2, 10}).to({-10, 10}).to({-10, 13}).to({2, 13}), false, 0, 0, 0},
        // Passes one below the other are no gouges of each other.
        {"second pass deeper",
         Contour({5, 20})
             .to({2, 10})
             .to({-10, 10})
             .to({-10, 13})
             .to({2, 13}, MoveKind::Rapid)
             .to({2, 9.5})
             .to({-10, 9.5})
             .to({-10, 13}),
         false, 0, 0, 0},
        {"taper into a taper", Contour({5, 20}).to({2, 10}).to({0, 10}).to({-5, 15}).to({-10, 10}).to({-30, 10}), false,
         0, 0, 0},
        {"V of 90 degrees", Contour({5, 20}).to({2, 15}).to({0, 15}).to({-5, 10}).to({-10, 15}).to({-30, 15}), false, 0,
         0, 0},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.name);
        const Looked seen = look(row.contour.elements, Compensation::Right, 1, 3, row.cancelled);
        ASSERT_EQ(seen.gouges.size(), row.depth > 0 ? 1u : 0u);
        if (row.depth == 0) continue;
        EXPECT_EQ(seen.gouges[0].tag, row.tag);
        EXPECT_EQ(seen.gouges[0].intoTag, row.into);
        EXPECT_NEAR(seen.gouges[0].depthMm, row.depth, kRounding);
    }
}

// Pieces of rests and hooks that run back in Z: nothing is claimed about them but that the search ends and that a job
// seen in a mirror has the same gouges.
RC_GTEST_PROP(NoseGouge, MirroredJobHasTheSameGouges, ()) {
    Contour contour({5, 20});
    const int count = *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(3, 20));
    for (int i = 0; i < count; ++i) {
        const auto step = [] { return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(-30, 31)) / 10.0; };
        const Point to = contour.at + Point{step(), step()};
        if (distance(contour.at, to) < 0.05) continue;
        const Point u = 0.5 * (to - contour.at);
        const int kind = *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(0, 4));
        if (kind > 1 || i == 0) {
            contour.to(to);
        } else {
            contour.to(to, kind == 0 ? MoveKind::ArcClockwise : MoveKind::ArcAnticlockwise,
                       contour.at + u + step() * leftOf(u));
        }
    }
    if (contour.elements.empty()) return;
    std::vector<PathElement> twin = contour.elements;
    for (PathElement& e : twin) {
        for (Point* p : {&e.from, &e.to, &e.centre}) p->r = -p->r;
        if (e.kind == MoveKind::ArcClockwise) {
            e.kind = MoveKind::ArcAnticlockwise;
        } else if (e.kind == MoveKind::ArcAnticlockwise) {
            e.kind = MoveKind::ArcClockwise;
        }
    }
    const Looked outside = look(contour.elements, Compensation::Right, 0.8, 3, true);
    const Looked inside = look(twin, Compensation::Left, 0.8, 2, true);
    RC_ASSERT(outside.issues.size() == inside.issues.size());
    RC_ASSERT(outside.gouges.size() == inside.gouges.size());
    for (std::size_t i = 0; i < outside.gouges.size(); ++i) {
        // Rounding, made larger where offsets meet at a small angle.
        RC_ASSERT(std::abs(outside.gouges[i].depthMm - inside.gouges[i].depthMm) < 1e-6);
    }
}

// ---- against GEOS

class Geos {
public:
    Geos() : context_(GEOS_init_r()) {}
    ~Geos() { GEOS_finish_r(context_); }
    Geos(const Geos&) = delete;
    Geos& operator=(const Geos&) = delete;

    GEOSGeometry* line(const std::vector<Point>& points) const {
        return GEOSGeom_createLineString_r(context_, sequence(points));
    }
    GEOSGeometry* polygon(std::vector<Point> points) const {
        points.push_back(points.front());
        return GEOSGeom_createPolygon_r(context_, GEOSGeom_createLinearRing_r(context_, sequence(points)), nullptr, 0);
    }
    // `part` without its outermost `depth`.
    GEOSGeometry* takenIn(const GEOSGeometry* part, double depth) const {
        return GEOSBuffer_r(context_, part, -depth, 8);
    }
    double distance(const GEOSGeometry* a, const GEOSGeometry* b) const {
        if (GEOSisEmpty_r(context_, a) || GEOSisEmpty_r(context_, b)) return 1e9;
        double far = 0;
        GEOSDistanceIndexed_r(context_, a, b, &far);
        return far;
    }
    void destroy(GEOSGeometry* g) const { GEOSGeom_destroy_r(context_, g); }

private:
    GEOSCoordSequence* sequence(const std::vector<Point>& points) const {
        const auto n = static_cast<unsigned>(points.size());
        GEOSCoordSequence* result = GEOSCoordSeq_create_r(context_, n, 2);
        for (unsigned i = 0; i < n; ++i) GEOSCoordSeq_setXY_r(context_, result, i, points[i].z, points[i].r);
        return result;
    }
    GEOSContextHandle_t context_;
};

constexpr double kChordErrorMm = 1e-6;

bool isArc(const PathElement& e) {
    return e.kind == MoveKind::ArcClockwise || e.kind == MoveKind::ArcAnticlockwise;
}

// Ends of chords, without the first point.
void walk(const PathElement& e, std::vector<Point>& points) {
    if (isArc(e)) {
        const Point u = e.from - e.centre, v = e.to - e.centre;
        const double k = e.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
        double turn = k * std::atan2(cross(u, v), dot(u, v));
        if (turn <= 0) turn += 2 * kPi;
        const int count = static_cast<int>(std::ceil(turn / std::sqrt(8 * kChordErrorMm / length(u)))) + 1;
        for (int i = 1; i < count; ++i) {
            const double angle = k * turn * i / count;
            points.push_back(e.centre + std::cos(angle) * u + std::sin(angle) * leftOf(u));
        }
    }
    points.push_back(e.to);
}

int pick(int low, int high) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(low, high + 1));
}
double pick(double low, double high) {
    return low + (high - low) * pick(0, 10000) / 10000.0;
}

// A profile cut towards the chuck that rises and falls, with walls; it begins and ends along z, so that the part under
// it can be closed by walls downwards.
struct Profile {
    Contour contour{{5, 30}};
    double heading = 0;

    static Point direction(double a) { return {-std::cos(a), std::sin(a)}; }
    void line(double a, double length) { contour.to(contour.at + length * direction(a)), heading = a; }
    void arc(double from, double until, double radius) {
        const double k = until > from ? -1 : 1;
        const Point centre = contour.at + k * radius * leftOf(direction(from));
        const Point to = centre - k * radius * leftOf(direction(until));
        contour.to(to, k < 0 ? MoveKind::ArcClockwise : MoveKind::ArcAnticlockwise, centre), heading = until;
    }
};

double anyHeading() {
    constexpr double kUsual[] = {0, kPi / 2, -kPi / 2, kPi / 4, -kPi / 4, 0};
    const int which = pick(0, 11);
    return which < 6 ? kUsual[which] : pick(-kPi / 2, kPi / 2);
}

Profile anyProfile(double least, double most) {
    Profile p;
    p.contour.to({2, 10});
    p.line(0, 3);
    const int count = pick(2, 10);
    for (int i = 0; i < count; ++i) {
        double from = pick(0, 1) == 0 ? p.heading : anyHeading();
        // Up and down the same wall would be a rib of no thickness.
        if (std::abs(from - p.heading) > kPi - 0.05) from = 0;
        if (pick(0, 2) > 0) {
            p.line(from, pick(least, most));
        } else {
            const double until = anyHeading();
            if (std::abs(until - from) > 0.1) p.arc(from, until, pick(least, most));
        }
    }
    p.line(0, 3);
    return p;
}

struct Entry {
    const Profile& profile;
    const Looked& seen;
    double rho;

    bool deeperThan(double depth) const {
        const Geos geos;
        const auto& elements = profile.contour.elements;
        std::vector<Point> part{elements[1].from};
        for (std::size_t i = 1; i < elements.size(); ++i) walk(elements[i], part);
        part.push_back({part.back().z, -200});
        part.push_back({part.front().z, -200});
        std::vector<Point> way{seen.path.front().to};
        for (const PathElement& e : seen.path) {
            if (e.tag > 0) walk(e, way);
        }
        for (Point& p : way) p = p - rho * tipFromNoseCentre(3);
        GEOSGeometry* whole = geos.polygon(part);
        GEOSGeometry* inner = geos.takenIn(whole, depth);
        GEOSGeometry* path = geos.line(way);
        const double far = geos.distance(path, inner);
        for (GEOSGeometry* g : {whole, inner, path}) geos.destroy(g);
        return far < rho;
    }
};

// What may be entered without a word: a touch, and for what was lost along an element by less than a touch up to 1 +
// sqrt 2 of it across its neighbours; chords on top.
constexpr double kUnsaid = 2.5 * tolerance::kTouchMm + 4 * kChordErrorMm;

RC_GTEST_PROP(NoseGouge, WhatIsNotReportedDoesNotEnterThePart, ()) {
    const Profile profile = anyProfile(0.05, 4);
    const double rho = pick(0.1, 1.2);
    const Looked seen = look(profile.contour.elements, Compensation::Right, rho, 3);
    RC_TAG(!seen.gouges.empty() ? "gouged" : !seen.issues.empty() ? "no room" : "clear");
    if (!seen.gouges.empty() || !seen.issues.empty()) return;
    const Entry entry{profile, seen, rho};
    RC_ASSERT(!entry.deeperThan(kUnsaid));
}

RC_GTEST_PROP(NoseGouge, WhatIsReportedEntersThePart, ()) {
    const Profile profile = anyProfile(0.3, 3);
    const double rho = pick(0.3, 1.2);
    const Looked seen = look(profile.contour.elements, Compensation::Right, rho, 3);
    const bool gouged =
        std::any_of(seen.gouges.begin(), seen.gouges.end(), [](const NoseGouge& g) { return !g.switching; });
    RC_TAG(gouged ? "gouged" : "not");
    if (!gouged) return;
    const Entry entry{profile, seen, rho};
    // Over a sharp rib the nose reaches farther past one flank than into the metal.
    RC_ASSERT(entry.deeperThan(10 * kChordErrorMm));
}

RC_GTEST_PROP(NoseGouge, DeepEntriesAreReportedAsGouges, ()) {
    const Profile profile = anyProfile(0.3, 3);
    const double rho = pick(0.3, 1.2);
    const Looked seen = look(profile.contour.elements, Compensation::Right, rho, 3);
    const Entry entry{profile, seen, rho};
    const bool enters = entry.deeperThan(0.02);
    RC_TAG(enters ? "enters" : "not");
    if (enters) RC_ASSERT(!seen.gouges.empty());
}

}  // namespace
}  // namespace firstoff
