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
#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/units.h"
#include "sim/setup/setup.h"

namespace firstoff {

namespace {

// Depth of the thread of a tap over its pitch, h3 of ISO 724.
constexpr double kTapThreadDepth = 0.61343;
// Threads on the chamfer of a tap for blind holes (from memory: form C, 2 to 3).
constexpr double kTapChamferThreads = 2.5;

Point direction(double angle) {
    return {std::cos(angle), std::sin(angle)};
}

// True where the tool is the mirror image, in z or in r, of one that feeds towards the chuck on the outside.
bool mirroredInZ(int tip) {
    return tip == 1 || tip == 4 || tip == 5;
}
bool mirroredInR(int tip) {
    return tip == 1 || tip == 2 || tip == 6;
}

Outline mirrored(const Outline& outline, bool inZ, bool inR) {
    const auto flip = [&](Point p) { return Point{inZ ? -p.z : p.z, inR ? -p.r : p.r}; };
    Outline result;
    for (const OutlineElement& e : outline.elements) {
        OutlineElement m = e;
        m.from = flip(e.from);
        m.to = flip(e.to);
        m.centre = flip(e.centre);
        if (inZ != inR) std::swap(m.from, m.to);
        result.elements.push_back(m);
    }
    // One mirror turns the outline round; going through it backwards makes it anticlockwise again.
    if (inZ != inR) std::reverse(result.elements.begin(), result.elements.end());
    return result;
}

Outline shifted(Outline outline, Point by) {
    for (OutlineElement& e : outline.elements) {
        e.from = e.from + by;
        e.to = e.to + by;
        e.centre = e.centre + by;
    }
    return outline;
}

// Corners of an insert from the cutting corner at the origin, anticlockwise. Shapes of ISO 1832: T triangle, W trigon
// (corners of 80° and 160° in turn), all others here are rhombic or square.
std::vector<Point> insertCorners(const Tool& tool) {
    const double first = kPi - tool.enteringAngle;
    const double second = first - tool.insertAngle;
    const double edge = tool.edgeLength;
    const Point a = edge * direction(second);
    const Point b = edge * direction(first);
    if (tool.insertShape == 'T') return {{0, 0}, a, b};
    if (tool.insertShape == 'W') {
        std::vector<Point> corners{{0, 0}};
        double heading = second;
        for (int i = 0; i < 5; ++i) {
            corners.push_back(corners.back() + edge * direction(heading));
            heading += radians(i % 2 == 0 ? 20 : 100);
        }
        return corners;
    }
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

Outline insertOutline(const Tool& tool) {
    const int tip = tool.tipNumber;
    if (tool.insertShape == 'R') {
        return shifted(roundInsert(tool.edgeLength), (-tool.edgeLength / 2) * tipFromNoseCentre(tip));
    }
    const std::vector<Point> corners = insertCorners(tool);
    Outline outline = roundedPolygon(corners, std::vector<double>(corners.size(), tool.noseRadius));
    const Point nose = tool.noseRadius > 0 ? outline.elements.front().centre : Point{};
    const std::size_t perCorner = tool.noseRadius > 0 ? 2 : 1;
    const std::size_t last = outline.elements.size() - 1;
    for (std::size_t i = 0; i < outline.elements.size(); ++i) {
        // The nose, the edge that follows it and the edge that ends in it cut; the rest closes the shape.
        outline.elements[i].cutting = i < perCorner || i == last;
    }
    // Into the frame of the imaginary tip: nose centre at minus (centre to tip), seen before any mirroring.
    const bool inZ = mirroredInZ(tip);
    const bool inR = mirroredInR(tip);
    return shifted(mirrored(shifted(outline, -nose), inZ, inR), -tool.noseRadius * tipFromNoseCentre(tip));
}

Outline groovingOutline(const Tool& tool) {
    const double w = tool.width;
    Outline outline = roundedPolygon({{0, 0}, {w, 0}, {w, tool.cuttingDepth}, {0, tool.cuttingDepth}},
                                     {tool.cornerRadius, tool.cornerRadius, 0, 0});
    for (OutlineElement& e : outline.elements) {
        // The far end of the blade closes the shape.
        if (e.radius == 0 && e.from.r == tool.cuttingDepth && e.to.r == tool.cuttingDepth) e.cutting = false;
    }
    const int tip = tool.tipNumber;
    if (tip == 8 || tip == 6) outline = shifted(outline, {-w / 2, 0});
    return mirrored(outline, mirroredInZ(tip), mirroredInR(tip));
}

Outline drillOutline(const Tool& tool) {
    const double radius = tool.diameter / 2;
    const double shoulder = radius / std::tan(tool.pointAngle / 2);
    const double back = std::max(tool.fluteLength, shoulder * 1.001);
    Outline outline = roundedPolygon({{0, 0}, {shoulder, -radius}, {back, -radius}, {back, radius}, {shoulder, radius}},
                                     {0, 0, 0, 0, 0});
    outline.elements[2].cutting = false;
    return outline;
}

// V or trapezoid standing on its nose at the origin, its flanks at half the thread angle, as deep as it cuts.
Outline threadOutline(const Tool& tool) {
    const double half = tool.threadAngle / 2;
    const double nose = tool.noseRadius;
    const double flat = tool.width / 2;
    // A round nose hangs above the corner in which the flanks would meet.
    const double below = flat > 0 ? 0 : nose / std::sin(half) - nose;
    const double spread = flat + (tool.cuttingDepth + below) * std::tan(half);
    std::vector<Point> corners{{spread, tool.cuttingDepth}, {-spread, tool.cuttingDepth}};
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
        if (e.radius == 0 && e.from.r == tool.cuttingDepth && e.to.r == tool.cuttingDepth) e.cutting = false;
    }
    // Tips 3 and 4 are gauged at the side of the nose.
    const double aside = std::abs(tipFromNoseCentre(tool.tipNumber).z) * std::max(nose, flat);
    return mirrored(shifted(outline, {aside, 0}), mirroredInZ(tool.tipNumber), mirroredInR(tool.tipNumber));
}

double threadSpread(const Tool& tool) {
    const Box box = boundingBox(threadOutline(tool));
    return (box.zMax - box.zMin) / 2;
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

Outline box(double zMin, double zMax, double rMin, double rMax) {
    if (zMax <= zMin || rMax <= rMin) return {};
    return roundedPolygon({{zMin, rMin}, {zMax, rMin}, {zMax, rMax}, {zMin, rMax}}, {0, 0, 0, 0});
}

}  // namespace

Point tipFromNoseCentre(int tipNumber) {
    assert(tipNumber >= 0 && tipNumber <= 9);
    static constexpr Point kTips[10] = {{0, 0}, {1, 1}, {-1, 1}, {-1, -1}, {1, -1},
                                        {1, 0}, {0, 1}, {-1, 0}, {0, -1},  {0, 0}};
    return kTips[tipNumber];
}

double tapChamferMm(const Tool& tool) {
    return kTapChamferThreads * tool.pitch;
}

Outline toolOutline(const Tool& tool) {
    switch (tool.kind) {
        case ToolKind::Turning:
        case ToolKind::Boring:
            return insertOutline(tool);
        case ToolKind::Grooving:
        case ToolKind::Parting:
            return groovingOutline(tool);
        case ToolKind::Drill:
            return drillOutline(tool);
        case ToolKind::Threading:
            return threadOutline(tool);
        case ToolKind::Tap:
            return tapOutline(tool);
    }
    return {};
}

// A shank across the axis for outside tools, a bar along the axis for boring bars and drills. It starts where the
// insert ends; how far it stands back from the tip along z is taken as a quarter of the edge, which is less than
// holders of ISO 5610 leave (from memory), so the shape is on the safe side.
Outline holderOutline(const Tool& tool) {
    if (tool.overhang <= 0) return {};
    const int tip = tool.tipNumber;
    switch (tool.kind) {
        case ToolKind::Turning: {
            const double back = tool.edgeLength / 4;
            return mirrored(box(back, back + tool.shankSize, tool.edgeLength / 2, tool.overhang), mirroredInZ(tip),
                            mirroredInR(tip));
        }
        case ToolKind::Boring: {
            const double below = tool.edgeLength / 8;
            return mirrored(box(tool.edgeLength / 4, tool.overhang, below, below + tool.shankSize), mirroredInZ(tip),
                            mirroredInR(tip));
        }
        case ToolKind::Grooving:
        case ToolKind::Parting: {
            // The blade is a little narrower than its edge; behind the cutting depth comes the full shank.
            const double left = tip == 8 || tip == 6 ? -tool.width / 2 : 0;
            return mirrored(box(left, left + std::max(tool.shankSize, tool.width), tool.cuttingDepth, tool.overhang),
                            mirroredInZ(tip), mirroredInR(tip));
        }
        case ToolKind::Threading: {
            // Level with the flank of the insert on the side towards which it threads.
            const double left = -threadSpread(tool);
            const double end = tool.inside ? tool.overhang : left + tool.shankSize;
            const double far = tool.inside ? tool.cuttingDepth + tool.shankSize : tool.overhang;
            return mirrored(box(left, end, tool.cuttingDepth, far), mirroredInZ(tip), mirroredInR(tip));
        }
        case ToolKind::Drill:
        case ToolKind::Tap:
            return box(tool.fluteLength, tool.overhang, -tool.shankSize / 2, tool.shankSize / 2);
    }
    return {};
}

const Tool* Setup::toolAt(int station) const {
    for (const Tool& tool : tools) {
        if (tool.station == station) return &tool;
    }
    return nullptr;
}

const Offset* Setup::offset(int number) const {
    for (const Offset& entry : offsets) {
        if (entry.number == number) return &entry;
    }
    return nullptr;
}

const MachineCode* Setup::machineCode(int number) const {
    for (const MachineCode& entry : machineCodes) {
        if (entry.number == number) return &entry;
    }
    return nullptr;
}

}  // namespace firstoff
