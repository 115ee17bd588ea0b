// Notation. A blade of width w stands on its front, the corner towards the chuck at z = 0:
//
//        r ^   |     |
//          |   |     |      f: front angle; here the corner away from the chuck leads (f > 0), and what it parts off
//          |   |     |      keeps no pip
//          |   `.__  |
//          |       `-'  f
//          +--> z 0   w
//
// The imaginary tip lies on the lines that touch the outline from below and at the side, so a rounded leading corner
// counts with its lowest point. A blade for grooves in a face is the same seen with z and r changed: the corner towards
// the axis takes the place of the one towards the chuck.
#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/setup/outline_placing.h"
#include "sim/setup/tool_outlines.h"

namespace firstoff {

namespace {

double secondRadius(const Tool& tool) {
    return tool.secondCornerRadius.value_or(tool.cornerRadius);
}

// Length that rounding a corner between the front and a side uses up of either.
double tangentLength(double radius, double turn) {
    return radius * std::tan(turn / 2);
}

Outline standing(const Tool& tool) {
    const double w = tool.width;
    const double rise = w * std::tan(std::abs(tool.frontAngle));
    const double first = tool.frontAngle > 0 ? rise : 0;
    const double second = tool.frontAngle < 0 ? rise : 0;
    const double deep = tool.cuttingDepth;
    Outline outline =
        roundedPolygon({{0, first}, {w, second}, {w, deep}, {0, deep}}, {tool.cornerRadius, secondRadius(tool), 0, 0});
    for (OutlineElement& e : outline.elements) {
        // The far end of the blade closes the shape.
        if (e.radius == 0 && e.from.r == deep && e.to.r == deep) e.cutting = false;
    }
    return shifted(outline, {0, -boundingBox(outline).rMin});
}

}  // namespace

double roomForSecondCornerMm(const Tool& tool, double firstRadius) {
    const double front = tool.width / std::cos(tool.frontAngle);
    const double left = front - tangentLength(firstRadius, kPi / 2 - tool.frontAngle);
    const double perRadius = tangentLength(1, kPi / 2 + tool.frontAngle);
    return left / perRadius;
}

Outline bladeOutline(const Tool& tool) {
    const Point tip = tipFromNoseCentre(tool.tipNumber);
    const double across = tool.face ? tip.r : tip.z;
    const double along = tool.face ? tip.z : tip.r;
    const double from = across < 0 ? 0 : across > 0 ? -tool.width : -tool.width / 2;
    Outline outline = turned(shifted(standing(tool), {from, 0}), tool.mountedAngle);
    const Box box = boundingBox(outline);
    // Gauged as it stands, turned or not.
    const double side = across < 0 ? -box.zMin : across > 0 ? -box.zMax : 0;
    outline = shifted(outline, {tool.mountedAngle != 0 ? side : 0, -box.rMin});
    if (tool.face) outline = transposed(outline);
    return mirrored(outline, tool.face && along > 0, !tool.face && along > 0);
}

double gaugedCornerRadius(const Tool& tool) {
    const Point tip = tipFromNoseCentre(tool.tipNumber);
    return (tool.face ? tip.r : tip.z) > 0 ? secondRadius(tool) : tool.cornerRadius;
}

}  // namespace firstoff
