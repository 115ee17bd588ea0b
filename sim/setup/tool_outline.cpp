#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/setup/outline_placing.h"
#include "sim/setup/setup.h"
#include "sim/setup/tool_outlines.h"

namespace firstoff {

Point tipFromNoseCentre(int tipNumber) {
    assert(tipNumber >= 0 && tipNumber <= 9);
    static constexpr Point kTips[10] = {{0, 0}, {1, 1}, {-1, 1}, {-1, -1}, {1, -1},
                                        {1, 0}, {0, 1}, {-1, 0}, {0, -1},  {0, 0}};
    return kTips[tipNumber];
}

Outline toolOutline(const Tool& tool) {
    switch (tool.kind) {
        case ToolKind::Turning:
        case ToolKind::Boring:
            return insertOutline(tool);
        case ToolKind::Grooving:
        case ToolKind::Parting:
            return bladeOutline(tool);
        case ToolKind::Threading:
            return threadOutline(tool);
        case ToolKind::Drill:
        case ToolKind::Tap:
        case ToolKind::CentreDrill:
        case ToolKind::StepDrill:
        case ToolKind::Reamer:
            return axialOutline(tool);
    }
    return {};
}

std::vector<Outline> toolSteps(const Tool& tool) {
    if (worksOnTheAxis(tool.kind)) return axialSteps(tool);
    if (tool.kind != ToolKind::Threading) return {};
    const std::optional<Outline> crest = threadCrestOutline(tool);
    return crest ? std::vector<Outline>{*crest} : std::vector<Outline>{};
}

void giveShape(Tool& tool) {
    tool.cutting = toolOutline(tool);
    tool.steps = toolSteps(tool);
    tool.holder = holderOutline(tool);
}

namespace {

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

}  // namespace

// A shank across the axis for outside tools, a bar along the axis for boring bars and drills. It starts where the
// insert ends; how far it stands back from the tip along z is taken as a quarter of the edge, which is less than
// holders of ISO 5610 leave (from memory), so the shape is on the safe side.
Outline holderOutline(const Tool& tool) {
    if (tool.overhang <= 0) return {};
    const int tip = tool.tipNumber;
    switch (tool.kind) {
        case ToolKind::Turning: {
            const double back = tool.edgeLength / 4;
            return mirrored(rectangle(back, back + tool.shankSize, tool.edgeLength / 2, tool.overhang),
                            isMirroredInZ(tip), isMirroredInR(tip));
        }
        case ToolKind::Boring: {
            const double below = tool.edgeLength / 8;
            return mirrored(rectangle(tool.edgeLength / 4, tool.overhang, below, below + tool.shankSize),
                            isMirroredInZ(tip), isMirroredInR(tip));
        }
        case ToolKind::Grooving:
        case ToolKind::Parting:
            return bladeHolder(tool);
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
