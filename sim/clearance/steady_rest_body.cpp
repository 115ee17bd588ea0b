// The steady rest: sectors of its ring, rollers, and the arms that carry them.
//
// A sector of the half angle a is the hull of its corners; the inner ones stand on the ring, the outer ones outside it
// by R / cos a - R. What the hull adds inside is r - r cos a. Angles as in SteadyRest: from towards the turret over +y.
#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/clearance/body_makers.h"

namespace firstoff {

namespace {

constexpr double kSectorMm = 0.02;  // added at most, on the safe side: well below what near misses are told to

SpacePoint at(double z, double radius, double angle) {
    return {z, radius * std::cos(angle), radius * std::sin(angle)};
}

void addSectors(MachineBody& body, const SteadyRest& rest, double from, double to) {
    const double half = std::acos(rest.outerRadius / (rest.outerRadius + kSectorMm));
    const int count = std::max(1, static_cast<int>(std::ceil((to - from) / (2 * half))));
    const double step = (to - from) / count;
    const double outer = rest.outerRadius / std::cos(step / 2);
    for (int i = 0; i < count; ++i) {
        // Corners of the tangents round the sector: in its middle, and both ends cut straight.
        const double a = from + i * step, b = a + step;
        ConvexPiece piece;
        for (const double z : {rest.z - rest.width / 2, rest.z + rest.width / 2}) {
            for (const SpacePoint& p :
                 {at(z, rest.innerRadius, a), at(z, rest.innerRadius, b), at(z, rest.outerRadius, a),
                  at(z, rest.outerRadius, b), at(z, outer, (a + b) / 2)}) {
                piece.corners.push_back(p);
            }
        }
        body.pieces.push_back(std::move(piece));
    }
}

void addRollers(MachineBody& body, const SteadyRest& rest, double from, double to) {
    const double back = rest.z - rest.width / 2, front = rest.z + rest.width / 2;
    const double middle = rest.barRadius + rest.rollerRadius;
    for (int i = 0; i < rest.rollers; ++i) {
        const double angle = from + (to - from) * (i + 0.5) / rest.rollers;
        const SpacePoint centre = at(0, middle, angle);
        body.pieces.push_back(cylinderPiece(back, front, rest.rollerRadius, centre.r, centre.y));
        if (middle >= rest.innerRadius) continue;
        const ConvexPiece arm =
            boxPiece({back, middle, -rest.rollerRadius}, {front, rest.innerRadius, rest.rollerRadius});
        body.pieces.push_back(turnedAbout(0, angle, arm));
    }
}

}  // namespace

void addSteadyRest(MachineBodies& all, const Setup& setup) {
    if (!setup.steadyRest) return;
    const SteadyRest& rest = *setup.steadyRest;
    if (!(rest.width > 0) || !(rest.outerRadius > rest.innerRadius)) {
        all.notModelled.push_back(
            {tr("The set-up gives no size of the steady rest, so nothing is kept clear of it."), true, 0, rest.span});
        return;
    }
    MachineBody body = bodyOf(BodyKind::SteadyRest, Carrier::Bed, bodyName(later("the steady rest")));
    double open = std::fmod(rest.openTo - rest.openFrom, 2 * kPi);
    if (open < 0) open += 2 * kPi;
    const double from = rest.openFrom + open, to = rest.openFrom + 2 * kPi;
    addSectors(body, rest, from, to);
    if (rest.rollers > 0 && rest.rollerRadius > 0) {
        addRollers(body, rest, from, to);
        all.notModelled.push_back(
            {tr("Where round the bar the rollers of the steady rest stand is not said; they are taken as "
                "evenly spread over its ring."),
             false, 0, rest.span});
    }
    all.bodies.push_back(std::move(body));
}

}  // namespace firstoff
