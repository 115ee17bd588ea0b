#include "sim/setup/outline_placing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace firstoff {

namespace {

template <typename Flip>
Outline flipped(const Outline& outline, Flip flip, bool turnsOver) {
    Outline result;
    for (const OutlineElement& e : outline.elements) {
        OutlineElement m = e;
        m.from = flip(e.from);
        m.to = flip(e.to);
        m.centre = flip(e.centre);
        if (turnsOver) std::swap(m.from, m.to);
        result.elements.push_back(m);
    }
    // One mirror turns the outline round; going through it backwards makes it anticlockwise again.
    if (turnsOver) std::reverse(result.elements.begin(), result.elements.end());
    return result;
}

}  // namespace

Point direction(double angle) {
    return {std::cos(angle), std::sin(angle)};
}

Outline mirrored(const Outline& outline, bool inZ, bool inR) {
    const auto flip = [=](Point p) { return Point{inZ ? -p.z : p.z, inR ? -p.r : p.r}; };
    return flipped(outline, flip, inZ != inR);
}

Outline transposed(const Outline& outline) {
    return flipped(
        outline,
        [](Point p) {
            return Point{p.r, p.z};
        },
        true);
}

Outline shifted(Outline outline, Point by) {
    for (OutlineElement& e : outline.elements) {
        e.from = e.from + by;
        e.to = e.to + by;
        e.centre = e.centre + by;
    }
    return outline;
}

Outline turned(Outline outline, double angle) {
    const Point along = direction(angle);
    const auto turn = [&](Point p) { return p.z * along + p.r * leftOf(along); };
    for (OutlineElement& e : outline.elements) {
        e.from = turn(e.from);
        e.to = turn(e.to);
        e.centre = turn(e.centre);
    }
    return outline;
}

Outline rectangle(double zMin, double zMax, double rMin, double rMax) {
    if (zMax <= zMin || rMax <= rMin) return {};
    return roundedPolygon({{zMin, rMin}, {zMax, rMin}, {zMax, rMax}, {zMin, rMax}}, {0, 0, 0, 0});
}

bool isMirroredInZ(int tipNumber) {
    return tipNumber == 1 || tipNumber == 4 || tipNumber == 5;
}

bool isMirroredInR(int tipNumber) {
    return tipNumber == 1 || tipNumber == 2 || tipNumber == 6;
}

}  // namespace firstoff
