// Guards, doors and whatever else the set-up names, boxes or meshes.
//
// What turns with a spindle is given as what it sweeps. Distance from the axis is convex, so along a straight line from
// p to q it is nowhere above the straight line between the distances of p and q: the solid that the circles through the
// corners span holds all that a box or a triangle sweeps.
#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/say.h"
#include "sim/clearance/body_makers.h"

namespace firstoff {

namespace {

BodyKind kindOf(ExtraBody::Kind kind) {
    switch (kind) {
        case ExtraBody::Kind::Guard:
            return BodyKind::Guard;
        case ExtraBody::Kind::Door:
            return BodyKind::Door;
        case ExtraBody::Kind::Other:
            break;
    }
    return BodyKind::Other;
}

Carrier carrierOf(ExtraBody::Carrier carrier) {
    switch (carrier) {
        case ExtraBody::Carrier::Bed:
            return Carrier::Bed;
        case ExtraBody::Carrier::Spindle:
            return Carrier::Spindle;
        case ExtraBody::Carrier::TurretSlide:
            return Carrier::TurretSlide;
        case ExtraBody::Carrier::Station:
            return Carrier::Turret;
        case ExtraBody::Carrier::Tailstock:
            return Carrier::Tailstock;
        case ExtraBody::Carrier::SecondSpindle:
            return Carrier::SecondSpindle;
    }
    return Carrier::Bed;
}

BodyName nameOf(const ExtraBody& extra) {
    const BodyName what = extra.kind == ExtraBody::Kind::Guard  ? bodyName(later("the guard"))
                          : extra.kind == ExtraBody::Kind::Door ? bodyName(later("the door"))
                                                                : bodyName(later("the body"));
    return {fmt::format("{} \"{}\"", what.told, extra.name), fmt::format("{} \"{}\"", what.english, extra.name)};
}

// Corners of the hull, anticlockwise.
std::vector<Point> convexHull(std::vector<Point> points) {
    std::sort(points.begin(), points.end(), [](Point a, Point b) { return a.z != b.z ? a.z < b.z : a.r < b.r; });
    std::vector<Point> hull;
    for (int side = 0; side < 2; ++side) {
        const std::size_t start = hull.size();
        for (const Point& p : points) {
            while (hull.size() >= start + 2 && cross(hull.back() - hull[hull.size() - 2], p - hull.back()) <= 0)
                hull.pop_back();
            hull.push_back(p);
        }
        hull.pop_back();
        std::reverse(points.begin(), points.end());
    }
    return hull;
}

std::vector<ConvexPiece> trianglesOf(const ExtraBody& extra) {
    std::vector<ConvexPiece> pieces;
    pieces.reserve(extra.triangles.size());
    for (const std::array<float, 9>& t : extra.triangles) {
        ConvexPiece piece;
        for (std::size_t i = 0; i < 9; i += 3) piece.corners.push_back({t[i], t[i + 1], t[i + 2]});
        pieces.push_back(std::move(piece));
    }
    return pieces;
}

// Least distance of the axis from an interval in each direction.
double distanceFromAxis(Range r, Range y) {
    const double dr = std::max({0.0, r.min, -r.max}), dy = std::max({0.0, y.min, -y.max});
    return std::hypot(dr, dy);
}

void sweepBox(MachineBody& body, const ExtraBody& extra) {
    const double far = std::hypot(std::max(std::abs(extra.r.min), std::abs(extra.r.max)),
                                  std::max(std::abs(extra.y.min), std::abs(extra.y.max)));
    addRing(body, extra.z.min, extra.z.max, distanceFromAxis(extra.r, extra.y), far);
}

// Least distance of a triangle from the axis, seen along it.
double distanceFromAxis(const std::vector<SpacePoint>& triangle) {
    double least = std::numeric_limits<double>::infinity();
    int left = 0, right = 0;
    for (std::size_t i = 0; i < triangle.size(); ++i) {
        const Point a{triangle[i].r, triangle[i].y};
        const Point b{triangle[(i + 1) % triangle.size()].r, triangle[(i + 1) % triangle.size()].y};
        const Point along = b - a;
        const double turn = cross(a, b), length2 = dot(along, along);
        (turn > 0 ? left : right) += turn != 0;
        const double t = length2 > 0 ? std::clamp(-dot(a, along) / length2, 0.0, 1.0) : 0;
        const Point nearest = a + t * along;
        least = std::min(least, std::hypot(nearest.z, nearest.r));
    }
    const bool round = left == 3 || right == 3;
    return round ? 0 : least;
}

// What a triangle sweeps, in the half-plane. Triangles that sweep no area are given some, on the safe side.
void addSweptSection(MachineBody& body, const std::vector<SpacePoint>& triangle) {
    constexpr double kThin = 0.005;  // mm
    std::vector<Point> points;
    const double near = distanceFromAxis(triangle);
    for (const SpacePoint& p : triangle) {
        const Point at = turnedIntoPlane(p);
        for (const double dz : {-kThin, kThin}) {
            points.push_back({at.z + dz, at.r + kThin});
            points.push_back({at.z + dz, std::max(0.0, std::min(near, at.r) - kThin)});
        }
    }
    body.sections.push_back(convexHull(std::move(points)));
}

void sweepTriangles(MachineBody& body, const std::vector<ConvexPiece>& triangles) {
    for (const ConvexPiece& triangle : triangles) {
        std::vector<Point> circles;
        for (const SpacePoint& p : triangle.corners) circles.push_back(turnedIntoPlane(p));
        body.pieces.push_back(turnedPiece(std::move(circles)));
        addSweptSection(body, triangle.corners);
    }
}

void addExtraBody(MachineBodies& all, const ExtraBody& extra) {
    MachineBody body = bodyOf(kindOf(extra.kind), carrierOf(extra.carrier), nameOf(extra));
    const bool isMesh = !extra.file.empty();
    if (isMesh && extra.triangles.empty()) {
        all.notModelled.push_back({say("The shape of {} could not be read, so nothing is kept clear of it.", body.name),
                                   true, extra.station, extra.span});
        return;
    }
    std::vector<ConvexPiece> pieces = isMesh
                                          ? trianglesOf(extra)
                                          : std::vector<ConvexPiece>{boxPiece({extra.z.min, extra.r.min, extra.y.min},
                                                                              {extra.z.max, extra.r.max, extra.y.max})};
    const bool swept = body.carrier == Carrier::Spindle || body.carrier == Carrier::SecondSpindle;
    if (swept) {
        isMesh ? sweepTriangles(body, pieces) : sweepBox(body, extra);
    } else {
        if (extra.carrier == ExtraBody::Carrier::Station) {
            body.station = extra.station;
            for (ConvexPiece& piece : pieces) {
                piece = turnedAbout(all.turretAxisR, -all.turnOf(extra.station), std::move(piece));
            }
        }
        body.pieces = std::move(pieces);
        body.isMesh = isMesh;
    }
    if (!body.pieces.empty()) all.bodies.push_back(std::move(body));
}

}  // namespace

namespace {

// How far off what moves a body of the bed may stand before its unit or place is doubted, mm.
constexpr double kOutOfReachMm = 500;

// A mesh on the bed that nothing could ever come near to is most likely read in the wrong unit or put in the wrong
// place.
bool isOutOfReach(const MachineBody& body, const Setup& setup) {
    if (body.carrier != Carrier::Bed || !body.isMesh || body.pieces.empty()) return false;
    SpaceBox box = boundingBox(body.pieces.front());
    for (const ConvexPiece& piece : body.pieces) {
        const SpaceBox b = boundingBox(piece);
        box.min = {std::min(box.min.z, b.min.z), std::min(box.min.r, b.min.r), std::min(box.min.y, b.min.y)};
        box.max = {std::max(box.max.z, b.max.z), std::max(box.max.r, b.max.r), std::max(box.max.y, b.max.y)};
    }
    const double turret = setup.machine.turretRadius + (setup.turret ? setup.turret->axisR : 0);
    const double head = setup.machine.turretThickness + (setup.turret ? setup.turret->headLength : 0);
    const double r = setup.machine.home.r + turret + setup.machine.turretRadius;
    const double dz = std::max({0.0, box.min.z - setup.machine.home.z - head, -setup.chuck.bodyLength - box.max.z});
    const double dr = std::max({0.0, box.min.r - r, -r - box.max.r});
    const double dy = std::max({0.0, box.min.y - r, -r - box.max.y});
    return std::hypot(dz, dr, dy) > kOutOfReachMm;
}

}  // namespace

void addExtraBodies(MachineBodies& all, const Setup& setup) {
    for (const ExtraBody& extra : setup.extraBodies) {
        addExtraBody(all, extra);
        if (all.bodies.empty() || !isOutOfReach(all.bodies.back(), setup)) continue;
        all.notModelled.push_back({say("Nothing that moves can come within {:g} mm of {}: its unit or its place "
                                       "is hardly right, so what really stands there is not known.",
                                       kOutOfReachMm, all.bodies.back().name),
                                   true, 0, extra.span});
    }
    const bool guarded = std::any_of(setup.extraBodies.begin(), setup.extraBodies.end(),
                                     [](const ExtraBody& extra) { return extra.kind != ExtraBody::Kind::Other; });
    if (guarded) return;
    all.notModelled.push_back(
        {tr("The set-up gives no guards and no doors, so nothing is kept clear of them."), false, 0, {}});
}

}  // namespace firstoff
