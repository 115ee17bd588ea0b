// Notation. A V or trapezoid stands on its nose at the origin, its flanks at half the thread angle, `cuttingDepth`
// high. A full profile has a flat there, parallel to Z, that turns the crests to size as the groove comes to depth:
//
//        r ^    ____________________     P: pitch. The flat reaches P/16 beyond the middle of the crests of an ISO
//          |    |____          ____|     thread to both sides, so that two neighbouring passes cover each crest.
//          |         \        /          What holds it is drawn half a pitch high.
//          |          \      /
//          |           `----'            V and flat overlap: the flanks run on into the part above, inside it.
//          +--> z
#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/setup/outline_placing.h"
#include "sim/setup/tool_outlines.h"

namespace firstoff {

namespace {

bool isFull(const Tool& tool) {
    return tool.profile == ThreadProfile::Full && tool.pitch > 0;
}

// Between the corner in which the flanks would meet and the bottom of a round nose.
double belowNose(const Tool& tool) {
    return tool.width > 0 ? 0 : tool.noseRadius / std::sin(tool.threadAngle / 2) - tool.noseRadius;
}

double halfWidthAt(const Tool& tool, double height) {
    return tool.width / 2 + (height + belowNose(tool)) * std::tan(tool.threadAngle / 2);
}

double crestHalfWidth(const Tool& tool) {
    return std::max(tool.pitch * (0.5 + 1.0 / 16), halfWidthAt(tool, tool.cuttingDepth) + tool.pitch / 16);
}

// How far the flanks run on inside the part that holds the crest flat.
double overlap(const Tool& tool) {
    if (!isFull(tool)) return 0;
    const double room = crestHalfWidth(tool) - halfWidthAt(tool, tool.cuttingDepth);
    return std::min(0.4 * tool.pitch, 0.5 * room / std::tan(tool.threadAngle / 2));
}

Outline standingProfile(const Tool& tool) {
    const double half = tool.threadAngle / 2;
    const double nose = tool.noseRadius;
    const double flat = tool.width / 2;
    const double below = belowNose(tool);
    const double top = tool.cuttingDepth + overlap(tool);
    const double spread = halfWidthAt(tool, top);
    std::vector<Point> corners{{spread, top}, {-spread, top}};
    std::vector<double> radii{0, 0};
    // Two corners keep their rounding apart.
    const double corner = std::min(nose, 0.99 * flat / std::tan((kPi / 2 - half) / 2));
    if (flat > 0) {
        corners.insert(corners.end(), {{-flat, 0}, {flat, 0}});
        radii.insert(radii.end(), {corner, corner});
    } else {
        corners.push_back({0, -below});
        radii.push_back(nose);
    }
    Outline outline = roundedPolygon(corners, radii);
    for (OutlineElement& e : outline.elements) {
        if (e.radius == 0 && e.from.r == top && e.to.r == top) e.cutting = false;
    }
    return outline;
}

// From where the parts are drawn to where the tip counts: turned as the insert is mounted and gauged at its lowest.
Outline placed(const Tool& tool, Outline outline) {
    const int tip = tool.tipNumber;
    // Tips 3 and 4 are gauged at the side of the nose.
    const double aside = std::abs(tipFromNoseCentre(tip).z) * std::max(tool.noseRadius, tool.width / 2);
    if (tool.mountedAngle != 0) {
        const double lowest = boundingBox(turned(standingProfile(tool), tool.mountedAngle)).rMin;
        outline = shifted(turned(std::move(outline), tool.mountedAngle), {0, -lowest});
    }
    return mirrored(shifted(std::move(outline), {aside, 0}), isMirroredInZ(tip), isMirroredInR(tip));
}

}  // namespace

Outline threadOutline(const Tool& tool) {
    return placed(tool, standingProfile(tool));
}

std::optional<Outline> threadCrestOutline(const Tool& tool) {
    if (!isFull(tool)) return std::nullopt;
    const double half = crestHalfWidth(tool);
    Outline outline = rectangle(-half, half, tool.cuttingDepth, tool.cuttingDepth + tool.pitch / 2);
    for (OutlineElement& e : outline.elements) {
        e.cutting = e.from.r == tool.cuttingDepth && e.to.r == tool.cuttingDepth;
    }
    return placed(tool, std::move(outline));
}

}  // namespace firstoff
