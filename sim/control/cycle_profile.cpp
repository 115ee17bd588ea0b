#include "sim/control/cycle_profile.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

Point CycleFrame::in(Point work) const {
    if (exchanged) work = {work.r, work.z};
    return {z * work.z, r * work.r};
}

Point CycleFrame::out(Point planned) const {
    planned = {z * planned.z, r * planned.r};
    return exchanged ? Point{planned.r, planned.z} : planned;
}

MoveKind CycleFrame::turned(MoveKind kind) const {
    if (!isArc(kind) || (z * r < 0) == exchanged) return kind;
    return kind == MoveKind::ArcClockwise ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
}

ProfileElement CycleFrame::in(const ProfileElement& element) const {
    return {in(element.from), in(element.to), in(element.centre), turned(element.kind), element.block};
}

double progress(const ProfileElement& arc, Point at) {
    const Point a = arc.from - arc.centre;
    const Point b = at - arc.centre;
    double angle = std::atan2(cross(a, b), dot(a, b));
    if (arc.kind == MoveKind::ArcClockwise) angle = -angle;
    // A point just before the start counts as the start, not as a full turn.
    if (angle < -1e-7) angle += 2 * kPi;
    return std::max(angle, 0.0);
}

Extent extent(const ProfileElement& e) {
    Extent box{std::min(e.from.z, e.to.z), std::max(e.from.z, e.to.z), std::min(e.from.r, e.to.r),
               std::max(e.from.r, e.to.r)};
    if (!isArc(e.kind)) return box;
    const double radius = distance(e.from, e.centre);
    const double whole = progress(e, e.to);
    for (Point direction : {Point{1, 0}, Point{-1, 0}, Point{0, 1}, Point{0, -1}}) {
        const Point at = e.centre + radius * direction;
        if (progress(e, at) > whole) continue;
        box.zMin = std::min(box.zMin, at.z);
        box.zMax = std::max(box.zMax, at.z);
        box.rMin = std::min(box.rMin, at.r);
        box.rMax = std::max(box.rMax, at.r);
    }
    return box;
}

namespace {

// The way out of the part at a place on the element; z falls along it.
Point outwards(const ProfileElement& e, Point at) {
    if (e.kind == MoveKind::ArcAnticlockwise) return (1 / distance(e.centre, at)) * (at - e.centre);
    if (e.kind == MoveKind::ArcClockwise) return (1 / distance(e.centre, at)) * (e.centre - at);
    const Point along = e.to - e.from;
    return (1 / length(along)) * Point{along.r, -along.z};
}

double depthIntoPart(const ProfileElement& e, Point by) {
    double depth = std::max(-dot(outwards(e, e.from), by), -dot(outwards(e, e.to), by));
    if (!isArc(e.kind) || length(by) == 0) return depth;
    // Deepest where the way out is right against the shift, if the arc gets there.
    const double radius = distance(e.from, e.centre);
    const double side = e.kind == MoveKind::ArcAnticlockwise ? -1 : 1;
    const Point deepest = e.centre + side * radius / length(by) * by;
    if (progress(e, deepest) < progress(e, e.to)) depth = length(by);
    return depth;
}

}  // namespace

double depthIntoPart(const std::vector<ProfileElement>& profile, Point by) {
    double depth = 0;
    for (const ProfileElement& e : profile) depth = std::max(depth, depthIntoPart(e, by));
    return depth;
}

std::vector<ProfileElement> shifted(std::vector<ProfileElement> profile, Point by) {
    for (ProfileElement& e : profile) {
        e.from = e.from + by;
        e.to = e.to + by;
        e.centre = e.centre + by;
    }
    return profile;
}

}  // namespace firstoff
