// What holds the cutting part, as one convex outline on the safe side.
//
// A holder whose head is known (f, l2, b of ISO 5610), drawn for a right-hand outside tool, tip at the origin:
//
//        r ^        |<-- b -->|          The head follows the insert: it stays behind the lines along its two edges
//          |       /|         |  shank   (one edge leans back by 180° - kappa - epsilon, the other by kappa - 90°), as
//          |   l2 / |         |          the edges could not cut else. Where l2 is not known the head goes all the way.
//          |     |  head      |
//          |   .'|___________ |
//          +--> z |<--- f --->|
//
// Seen this way a boring bar lies along z under its tip: the shank from f - b to f below it.
#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/base/units.h"
#include "sim/setup/outline_placing.h"
#include "sim/setup/setup.h"
#include "sim/setup/tool_outlines.h"

namespace firstoff {

namespace {

// How far the head stands back from the edges, in lengths of the edge: less than holders of ISO 5610 leave (from
// memory).
constexpr double kBehindSide = 0.25, kBehindFront = 0.125, kBehindLine = 0.1;

// What lies to the left of the line from `a` towards `b`.
std::vector<Point> cut(const std::vector<Point>& polygon, Point a, Point b) {
    std::vector<Point> kept;
    const auto side = [&](Point p) { return cross(b - a, p - a); };
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point p = polygon[i], q = polygon[(i + 1) % polygon.size()];
        const double u = side(p), v = side(q);
        if (u >= 0) kept.push_back(p);
        if ((u > 0 && v < 0) || (u < 0 && v > 0)) kept.push_back(p + (u / (u - v)) * (q - p));
    }
    return kept;
}

Outline straightEdged(const std::vector<Point>& polygon) {
    std::vector<Point> corners;
    constexpr double kSame = 1e-9;
    for (Point p : polygon) {
        if (corners.empty() || distance(corners.back(), p) > kSame) corners.push_back(p);
    }
    while (corners.size() > 1 && distance(corners.back(), corners.front()) <= kSame) corners.pop_back();
    if (corners.size() < 3) return {};
    return roundedPolygon(corners, std::vector<double>(corners.size(), 0.0));
}

double usedHeadWidth(const Tool& tool, double usual) {
    return tool.head->headWidth > 0 ? tool.head->headWidth : usual;
}

double usedHeadLength(const Tool& tool) {
    return tool.head->headLength > 0 ? std::min(tool.head->headLength, tool.overhang) : tool.overhang;
}

Outline headedHolder(const Tool& tool) {
    const double behind = kBehindSide * tool.edgeLength;
    const double shank = tool.head->shankWidth;
    const double far = usedHeadWidth(tool, behind + shank);
    const double headEnd = usedHeadLength(tool);
    const bool round = tool.insertShape == 'R';
    const double lean = round ? 0 : tool.enteringAngle - kPi / 2;
    // At the side of the shank, and at the side of the head, where the cutting edge leans back or stands upright.
    const double near = far - shank;
    const double left = lean >= 0 ? std::min(near, behind) : near;
    const double bottom = kBehindLine * tool.edgeLength;
    std::vector<Point> polygon{{std::min(left, 0.0), 0}, {far, 0}, {far, tool.overhang}, {left, tool.overhang}};
    if (left > 0) polygon.front().z = left;
    if (left < near && headEnd < tool.overhang) {
        polygon = cut(polygon, {near, tool.overhang}, {left, headEnd});
    }
    // Behind the line along the other edge, from the tip on, and the one along the cutting edge where it leans forward.
    const double rise = round ? 0 : std::max(0.0, kPi - tool.enteringAngle - tool.insertAngle);
    const Point along = direction(rise);
    const Point up{0, round ? tool.edgeLength / 2 : bottom};
    polygon = cut(polygon, up, up + along);
    if (lean < 0) {
        const Point edge = direction(kPi - tool.enteringAngle);
        const Point back{bottom, 0};
        polygon = cut(polygon, back + edge, back);
    }
    return straightEdged(polygon);
}

Outline headedBar(const Tool& tool) {
    const double below = kBehindFront * tool.edgeLength;
    const double bar = tool.head->shankWidth;
    const double far = usedHeadWidth(tool, below + bar);
    const double near = std::max(far - bar, 0.0);
    const double top = std::min(near, below);
    const double front = kBehindSide * tool.edgeLength;
    std::vector<Point> polygon{{front, top}, {tool.overhang, top}, {tool.overhang, far}, {front, far}};
    const double headEnd = usedHeadLength(tool);
    if (top < near && headEnd < tool.overhang && headEnd > front) {
        polygon = cut(polygon, {headEnd, top}, {tool.overhang, near});
    }
    return straightEdged(polygon);
}

// Where the side of a blade towards the chuck (of a face blade: towards the axis) stands from the imaginary tip.
double bladeSide(const Tool& tool) {
    const Point tip = tipFromNoseCentre(tool.tipNumber);
    const double across = tool.face ? tip.r : tip.z;
    return across < 0 ? 0 : across > 0 ? -tool.width : -tool.width / 2;
}

// The blade is a little narrower than its edge; behind the cutting depth comes the full shank, level with the blade on
// the side on which the tip is gauged.
Outline bladeHolder(const Tool& tool) {
    const double size = std::max(tool.shankSize, tool.width);
    const Point tip = tipFromNoseCentre(tool.tipNumber);
    const double across = tool.face ? tip.r : tip.z;
    const double from = across > 0 ? -size : bladeSide(tool);
    Outline holder = rectangle(from, from + size, tool.cuttingDepth, tool.overhang);
    if (tool.face) holder = transposed(holder);
    return mirrored(holder, tool.face && tip.z > 0, !tool.face && tip.r > 0);
}

// A blade that points outwards sits in the end of a bar along Z; the bar begins level with the blade.
Outline grooveBar(const Tool& tool) {
    return rectangle(bladeSide(tool), tool.overhang, -(tool.cuttingDepth + tool.shankSize), -tool.cuttingDepth);
}

Outline threadHolder(const Tool& tool) {
    const int tip = tool.tipNumber;
    Box box = boundingBox(threadOutline(tool));
    double deep = tool.cuttingDepth;
    if (const std::optional<Outline> crest = threadCrestOutline(tool)) {
        const Box wide = boundingBox(*crest);
        box.zMin = std::min(box.zMin, wide.zMin);
        box.zMax = std::max(box.zMax, wide.zMax);
        deep = std::max(-wide.rMin, wide.rMax);
    }
    // Level with the flank of the insert on the side towards which it threads.
    const double left = -(box.zMax - box.zMin) / 2;
    const double end = tool.inside ? tool.overhang : left + tool.shankSize;
    const double far = tool.inside ? deep + tool.shankSize : tool.overhang;
    return mirrored(rectangle(left, end, deep, far), isMirroredInZ(tip), isMirroredInR(tip));
}

// The bar comes from the side away from the chuck whichever way its edge looks; an edge that looks back stands in front
// of the end of the bar.
Outline plainBar(const Tool& tool) {
    const double below = kBehindFront * tool.edgeLength;
    const bool looksBack = isMirroredInZ(tool.tipNumber);
    const double front = looksBack ? -tool.edgeLength : kBehindSide * tool.edgeLength;
    return mirrored(rectangle(front, tool.overhang, below, below + tool.shankSize), false,
                    isMirroredInR(tool.tipNumber));
}

}  // namespace

// A shank across the axis for outside tools, a bar along the axis for boring bars and drills. Where nothing is known of
// the head it starts where the insert ends; how far it stands back from the tip along z is taken as a quarter of the
// edge, which is less than holders of ISO 5610 leave (from memory), so the shape is on the safe side.
Outline holderOutline(const Tool& tool) {
    if (tool.overhang <= 0) return {};
    const int tip = tool.tipNumber;
    switch (tool.kind) {
        case ToolKind::Turning: {
            if (tool.head) return mirrored(headedHolder(tool), isMirroredInZ(tip), isMirroredInR(tip));
            const double back = kBehindSide * tool.edgeLength;
            return mirrored(rectangle(back, back + tool.shankSize, tool.edgeLength / 2, tool.overhang),
                            isMirroredInZ(tip), isMirroredInR(tip));
        }
        case ToolKind::Boring:
            if (tool.head && !isMirroredInZ(tip)) return mirrored(headedBar(tool), false, isMirroredInR(tip));
            return plainBar(tool);
        case ToolKind::Grooving:
        case ToolKind::Parting:
            return standsAlongZ(tool) && !tool.face ? grooveBar(tool) : bladeHolder(tool);
        case ToolKind::Threading:
            return threadHolder(tool);
        case ToolKind::Drill:
        case ToolKind::Tap:
        case ToolKind::CentreDrill:
        case ToolKind::StepDrill:
        case ToolKind::Reamer:
            return rectangle(tool.fluteLength, tool.overhang, -tool.shankSize / 2, tool.shankSize / 2);
    }
    return {};
}

std::vector<Outline> holderSteps(const Tool& tool) {
    if (tool.colletChuckLength <= 0) return {};
    return {rectangle(tool.overhang - tool.colletChuckLength, tool.overhang, -tool.colletChuckRadius,
                      tool.colletChuckRadius)};
}

}  // namespace firstoff
