#include "sim/base/contour_geometry.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

namespace {

// An edge whose arc departs less than this from its chord is straight: its centre would be so far away that rounding
// moved the arc by more.
constexpr double kStraightMm = 1e-9;

// Whether an angle lies on the arc that starts at `start` and turns through `turn`.
bool isOnTurn(double start, double turn, double angle) {
    double ahead = std::fmod(turn > 0 ? angle - start : start - angle, 2 * kPi);
    if (ahead < 0) ahead += 2 * kPi;
    return ahead <= std::abs(turn);
}

void widen(Box& box, Point p) {
    box.zMin = std::min(box.zMin, p.z);
    box.zMax = std::max(box.zMax, p.z);
    box.rMin = std::min(box.rMin, p.r);
    box.rMax = std::max(box.rMax, p.r);
}

double startAngle(const EdgeArc& arc, Point from) {
    return std::atan2(from.r - arc.centre.r, from.z - arc.centre.z);
}

}  // namespace

std::optional<EdgeArc> arcOf(Point from, Point to, double bulge) {
    const Point chord = to - from;
    const double chordLength = length(chord);
    if (std::abs(bulge) * chordLength / 2 < kStraightMm) return std::nullopt;
    EdgeArc arc;
    arc.radius = chordLength * (1 + bulge * bulge) / (4 * std::abs(bulge));
    arc.centre = 0.5 * (from + to) + ((1 - bulge * bulge) / (4 * bulge)) * leftOf(chord);
    arc.turn = 4 * std::atan(bulge);
    return arc;
}

double bulgeOf(double turn) {
    return std::tan(turn / 4);
}

Box edgeBox(Point from, Point to, double bulge) {
    Box box{from.z, from.z, from.r, from.r};
    widen(box, to);
    const auto arc = arcOf(from, to, bulge);
    if (!arc) return box;
    const double start = startAngle(*arc, from);
    const Point quarters[] = {{arc->radius, 0}, {0, arc->radius}, {-arc->radius, 0}, {0, -arc->radius}};
    for (int i = 0; i < 4; ++i) {
        if (isOnTurn(start, arc->turn, i * kPi / 2)) widen(box, arc->centre + quarters[i]);
    }
    return box;
}

Box boundingBox(const std::vector<Contour>& contours) {
    Box box;
    bool any = false;
    for (const Contour& contour : contours) {
        for (std::size_t i = 0; i < contour.size(); ++i) {
            const Box edge = edgeBox(contour[i].at, edgeEnd(contour, i), contour[i].bulge);
            if (!any) box = edge;
            any = true;
            widen(box, {edge.zMin, edge.rMin});
            widen(box, {edge.zMax, edge.rMax});
        }
    }
    return box;
}

double areaOf(const Contour& contour) {
    double area = 0;
    for (std::size_t i = 0; i < contour.size(); ++i) {
        const Point from = contour[i].at;
        const Point to = edgeEnd(contour, i);
        area += cross(from, to) / 2;
        if (const auto arc = arcOf(from, to, contour[i].bulge)) {
            area += arc->radius * arc->radius * (arc->turn - std::sin(arc->turn)) / 2;
        }
    }
    return area;
}

double farthestFromOrigin(const std::vector<Contour>& contours) {
    double farthest = 0;
    for (const Contour& contour : contours) {
        for (std::size_t i = 0; i < contour.size(); ++i) {
            const Point from = contour[i].at;
            farthest = std::max(farthest, length(from));
            const auto arc = arcOf(from, edgeEnd(contour, i), contour[i].bulge);
            if (!arc) continue;
            // The point of the circle that is farthest away lies beyond its centre.
            const double away = std::atan2(arc->centre.r, arc->centre.z);
            const bool anywhere = length(arc->centre) == 0;
            if (anywhere || isOnTurn(startAngle(*arc, from), arc->turn, away)) {
                farthest = std::max(farthest, length(arc->centre) + arc->radius);
            }
        }
    }
    return farthest;
}

Contour mirroredInZ(const Contour& contour, double sum) {
    // Mirroring turns the sense of running over, walking backwards turns it over again: so bulges keep their sign, and
    // each edge is now left by what was its end.
    Contour result;
    result.reserve(contour.size());
    for (std::size_t i = contour.size(); i > 0; --i) {
        const Point end = edgeEnd(contour, i - 1);
        result.push_back({{sum - end.z, end.r}, contour[i - 1].bulge});
    }
    return result;
}

void shiftInZ(std::vector<Contour>& contours, double by) {
    for (Contour& contour : contours) {
        for (ContourCorner& corner : contour) corner.at.z += by;
    }
}

}  // namespace firstoff
