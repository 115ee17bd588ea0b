// Notation. A right-hand outside tool feeds towards -z. Its cutting corner A stands lower left. From A the cutting edge
// leaves at the angle 180° - kappa to +z (kappa, the entering angle of ISO 3002-1, lies between the edge and the feed),
// and the other edge epsilon further clockwise:
//
//        r ^      \  cutting edge, direction d1 = (-cos kappa, sin kappa)
//          |       \ .
//          |        A------ other edge, direction d2, epsilon clockwise of d1
//          +--> z
//
// With kappa 95° and an 80° corner the edges stand 5° off the face and 5° off the diameter. Every other way round is a
// mirror image of this one. The corner is rounded with the nose radius and the whole outline is shifted so that the
// imaginary tip lies at the origin.
//
// Wiper flats cut the corner off, parallel to Z (from B along b) and parallel to X (from B along f), so that after the
// nose has rounded B a length w of each is left (elementary geometry; that makers grind them so: common practice):
//
//            \ d1
//             F         F = A + t1 d1, E = A + t2 d2, E - F = (w + T, -(w + T)), T = nose radius (a right angle at B)
//             |  A
//             B----E--- d2
//
// Where only one of them has a place, the other of E and F is B itself, and T follows from the angle there.
#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/setup/outline_placing.h"
#include "sim/setup/tool_outlines.h"

namespace firstoff {

namespace {

// An edge as good as parallel to its feed needs no wiper and has no room for one.
const double kLeastLean = radians(0.01);

double firstAngle(const Tool& tool) {
    return kPi - tool.enteringAngle;
}
double secondAngle(const Tool& tool) {
    return firstAngle(tool) - tool.insertAngle;
}

std::vector<Point> closedWalk(double edge, double heading, const std::vector<double>& turns) {
    std::vector<Point> corners{{0, 0}};
    for (double turn : turns) {
        corners.push_back(corners.back() + edge * direction(heading));
        heading += turn;
    }
    return corners;
}

int regularCorners(char shape) {
    return shape == 'P' ? 5 : shape == 'H' ? 6 : shape == 'O' ? 8 : 0;
}

// Corners of an insert from the cutting corner at the origin, anticlockwise. Shapes of ISO 1832: T triangle, W trigon
// (corners of 80° and 160° in turn), P, H and O regular polygons, all others here have two pairs of parallel edges.
std::vector<Point> insertCorners(const Tool& tool) {
    const double edge = tool.edgeLength;
    const double width = tool.edgeWidth > 0 ? tool.edgeWidth : edge;
    const double second = secondAngle(tool);
    const Point b = edge * direction(firstAngle(tool));
    if (tool.insertShape == 'T') return {{0, 0}, edge * direction(second), b};
    if (tool.insertShape == 'W') {
        return closedWalk(edge, second, {radians(20), radians(100), radians(20), radians(100), radians(20)});
    }
    if (const int n = regularCorners(tool.insertShape)) {
        return closedWalk(edge, second, std::vector<double>(static_cast<std::size_t>(n - 1), 2 * kPi / n));
    }
    const Point a = width * direction(second);
    return {{0, 0}, a, a + b, b};
}

Outline roundInsert(double diameter) {
    const double radius = diameter / 2;
    Outline outline;
    for (int quarter = 0; quarter < 4; ++quarter) {
        outline.elements.push_back({radius * direction(quarter * kPi / 2), radius * direction((quarter + 1) * kPi / 2),
                                    Point{}, radius, true});
    }
    return outline;
}

// What the wipers make of the cutting corner: E, B and F above, E or F equal to B where that wiper is none.
struct WiperCorner {
    Point e, b, f;
    double t1 = 0, t2 = 0;              // how much of the edges they take
    double rounded1 = 0, rounded2 = 0;  // and how much more the nose, where B lies on an edge
};

// t2 d2 - t1 d1 = way.
WiperCorner cornerCutOff(const Tool& tool, Point way) {
    const Point d1 = direction(firstAngle(tool));
    const Point d2 = direction(secondAngle(tool));
    WiperCorner corner;
    corner.t2 = cross(way, d1) / cross(d2, d1);
    corner.t1 = cross(way, d2) / cross(d2, d1);
    corner.e = corner.t2 * d2;
    corner.f = corner.t1 * d1;
    return corner;
}

WiperCorner wiperCorner(const Tool& tool, double flat) {
    const double nose = tool.noseRadius;
    if (hasTurningWiper(tool) && hasFacingWiper(tool)) {
        WiperCorner corner = cornerCutOff(tool, {flat + nose, -(flat + nose)});
        corner.b = {corner.f.z, corner.e.r};
        return corner;
    }
    if (hasTurningWiper(tool)) {
        // The corner at F turns from d1, coming down, to +z.
        const double tangent = nose * std::tan((kPi - firstAngle(tool)) / 2);
        WiperCorner corner = cornerCutOff(tool, {flat + tangent, 0});
        corner.b = corner.f;
        corner.rounded1 = tangent;
        return corner;
    }
    // The corner at E turns from -r to d2.
    const double tangent = nose * std::tan((kPi / 2 + secondAngle(tool)) / 2);
    WiperCorner corner = cornerCutOff(tool, {0, -(flat + tangent)});
    corner.b = corner.e;
    corner.rounded2 = tangent;
    return corner;
}

// Corners and their radii, the cutting corner (or corners, with wipers) first.
struct Corners {
    std::vector<Point> at;
    std::vector<double> radii;
    std::size_t nose = 0;
    std::size_t cuttingFrom = 0;  // edges from here to the end of the list cut, and those before `cuttingTo`
    std::size_t cuttingTo = 1;
};

Corners cornersOf(const Tool& tool) {
    Corners corners;
    corners.at = insertCorners(tool);
    corners.radii.assign(corners.at.size(), tool.noseRadius);
    if (tool.wiperFlat > 0 && (hasTurningWiper(tool) || hasFacingWiper(tool))) {
        const WiperCorner cut = wiperCorner(tool, tool.wiperFlat);
        corners.at.front() = cut.b;
        if (hasTurningWiper(tool)) {
            corners.at.insert(corners.at.begin() + 1, cut.e);
            corners.radii.insert(corners.radii.begin() + 1, 0);
            corners.cuttingTo = 2;
        }
        if (hasFacingWiper(tool)) {
            corners.at.push_back(cut.f);
            corners.radii.push_back(0);
        }
    }
    corners.cuttingFrom = corners.at.size() - (tool.wiperFlat > 0 && hasFacingWiper(tool) ? 2 : 1);
    return corners;
}

// Which edge of the sharp polygon an element of the rounded one lies on: the one after corner i starts where i ends.
void markCutting(Outline& outline, const Corners& corners) {
    std::size_t corner = 0;
    const auto isEdge = [](const OutlineElement& e) { return e.radius == 0; };
    // Elements come corner by corner: its arc, if it has one, then the edge behind it, if any of it is left.
    for (OutlineElement& e : outline.elements) {
        if (isEdge(e)) {
            // The edge behind `corner`: find it by direction, since an edge may be used up by its roundings.
            const Point way = e.to - e.from;
            const auto along = [&](std::size_t i) {
                const Point edge = corners.at[(i + 1) % corners.at.size()] - corners.at[i];
                return dot(edge, way) > 0 && std::abs(cross(edge, way)) <= 1e-6 * length(edge) * length(way);
            };
            while (corner < corners.at.size() && !along(corner)) ++corner;
            e.cutting = corner < corners.cuttingTo || corner >= corners.cuttingFrom;
        } else {
            e.cutting = false;
        }
    }
}

}  // namespace

bool hasTurningWiper(const Tool& tool) {
    return tool.insertShape != 'R' && secondAngle(tool) > kLeastLean;
}

bool hasFacingWiper(const Tool& tool) {
    return tool.insertShape != 'R' && firstAngle(tool) < kPi / 2 - kLeastLean;
}

double largestWiperFlatMm(const Tool& tool) {
    if (!hasTurningWiper(tool) && !hasFacingWiper(tool)) return 0;
    const std::vector<Point> at = insertCorners(tool);
    const std::size_t n = at.size();
    // What is left of an edge beside the rounding of the corner at its other end, and no more than half of it.
    const auto room = [&](std::size_t other, std::size_t beyond) {
        const Point edge = at[other] - at[0], next = at[beyond] - at[other];
        const double turn = std::abs(std::atan2(cross(edge, next), dot(edge, next)));
        return std::min(length(edge) / 2, 0.99 * (length(edge) - tool.noseRadius * std::tan(turn / 2)));
    };
    // What the corner takes of the edges grows in proportion to the flat.
    const WiperCorner none = wiperCorner(tool, 0);
    const WiperCorner one = wiperCorner(tool, 1);
    double most = 1e9;
    if (one.t1 > none.t1) most = std::min(most, (room(n - 1, n - 2) - none.rounded1 - none.t1) / (one.t1 - none.t1));
    if (one.t2 > none.t2) most = std::min(most, (room(1, 2) - none.rounded2 - none.t2) / (one.t2 - none.t2));
    return std::max(0.0, most);
}

Outline insertOutline(const Tool& tool) {
    const int tip = tool.tipNumber;
    if (tool.insertShape == 'R') {
        return shifted(roundInsert(tool.edgeLength), (-tool.edgeLength / 2) * tipFromNoseCentre(tip));
    }
    const Corners corners = cornersOf(tool);
    Outline outline = roundedPolygon(corners.at, corners.radii);
    markCutting(outline, corners);
    Point nose = corners.at.front();
    if (tool.noseRadius > 0) {
        outline.elements.front().cutting = true;
        nose = outline.elements.front().centre;
    }
    // Into the frame of the imaginary tip: nose centre at minus (centre to tip), seen before any mirroring.
    return shifted(mirrored(shifted(outline, -nose), isMirroredInZ(tip), isMirroredInR(tip)),
                   -tool.noseRadius * tipFromNoseCentre(tip));
}

}  // namespace firstoff
