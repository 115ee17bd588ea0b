// Tools on the axis: rods that begin with a point, a chamfer or a flat front and grow in steps. Only lips and chamfers
// cut: along the margins a drill is guided, and a reamer too.
//
//        r ^          ______     A step that begins at z0 with the radius r0 and has grown to r1 at z1 is one convex
//          |  z0 ____/ z1        part, a rod with a tapered front; the part before it runs on inside it.
//          |----'                z1 = z0 + (r1 - r0) / tan(angle / 2), elementary geometry.
//          |- - - - - - -> z
#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/setup/outline_placing.h"
#include "sim/setup/tool_outlines.h"

namespace firstoff {

namespace {

// Depth of the thread of a tap over its pitch, h3 of ISO 724.
constexpr double kTapThreadDepth = 0.61343;

// From the radius r0 at z0 to r1 at z1, then straight to `back`. r0 may be 0 (a point), z1 = z0 (a flat front).
Outline rod(double z0, double r0, double z1, double r1, double back) {
    std::vector<Point> corners;
    const bool flat = z1 <= z0;
    if (!flat) corners.push_back({z0, -r0});
    corners.insert(corners.end(), {{z1, -r1}, {back, -r1}, {back, r1}, {z1, r1}});
    if (!flat && r0 > 0) corners.push_back({z0, r0});
    return roundedPolygon(corners, std::vector<double>(corners.size(), 0.0));
}

// A tapered front cuts; so does a flat one if it is meant to.
Outline cuttingInFront(Outline outline, double z0, double z1, bool flatCuts) {
    for (OutlineElement& e : outline.elements) {
        const double from = std::min(e.from.z, e.to.z), to = std::max(e.from.z, e.to.z);
        const bool front = from == z0 && to == z0;
        e.cutting = front ? flatCuts : z1 > z0 && from == z0 && to == z1;
    }
    return outline;
}

double pointLength(const Tool& tool) {
    return tool.diameter / 2 / std::tan(tool.pointAngle / 2);
}

// A rod of the tap's diameter that tapers to its core over the chamfer.
Outline tapOutline(const Tool& tool) {
    const double radius = tool.diameter / 2;
    const double core = radius - kTapThreadDepth * tool.pitch;
    const double chamfer = tapChamferMm(tool);
    Outline outline = roundedPolygon({{0, core},
                                      {0, -core},
                                      {chamfer, -radius},
                                      {tool.fluteLength, -radius},
                                      {tool.fluteLength, radius},
                                      {chamfer, radius}},
                                     std::vector<double>(6, 0.0));
    outline.elements[3].cutting = false;
    return outline;
}

Outline reamerOutline(const Tool& tool) {
    const double radius = tool.diameter / 2;
    const double front = radius - tool.chamferLength * std::tan(tool.chamferAngle);
    return cuttingInFront(rod(0, front, tool.chamferLength, radius, tool.fluteLength), 0, tool.chamferLength, false);
}

Outline pointOutline(const Tool& tool) {
    const double shoulder = pointLength(tool);
    const double back = std::max(tool.fluteLength, shoulder * 1.001);
    return cuttingInFront(rod(0, 0, shoulder, tool.diameter / 2, back), 0, shoulder, false);
}

}  // namespace

double tapChamferMm(const Tool& tool) {
    return tool.chamferThreads * tool.pitch;
}

double endOfStep(const DrillStep& step, double radiusBefore) {
    if (step.angle >= kPi - 1e-9) return step.at;
    return step.at + (step.radius - radiusBefore) / std::tan(step.angle / 2);
}

Outline axialOutline(const Tool& tool) {
    if (tool.kind == ToolKind::Tap) return tapOutline(tool);
    return tool.kind == ToolKind::Reamer ? reamerOutline(tool) : pointOutline(tool);
}

std::vector<Outline> axialSteps(const Tool& tool) {
    std::vector<Outline> steps;
    double before = tool.diameter / 2;
    for (const DrillStep& step : tool.drillSteps) {
        const double end = endOfStep(step, before);
        const Outline part = rod(step.at, before, end, step.radius, std::max(tool.fluteLength, end * 1.001));
        steps.push_back(cuttingInFront(part, step.at, end, end <= step.at));
        before = step.radius;
    }
    return steps;
}

}  // namespace firstoff
