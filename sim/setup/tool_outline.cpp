#include <cassert>

#include "sim/setup/setup.h"
#include "sim/setup/tool_outlines.h"

namespace firstoff {

Point tipFromNoseCentre(int tipNumber) {
    assert(tipNumber >= 0 && tipNumber <= 9);
    static constexpr Point kTips[10] = {{0, 0}, {1, 1}, {-1, 1}, {-1, -1}, {1, -1},
                                        {1, 0}, {0, 1}, {-1, 0}, {0, -1},  {0, 0}};
    return kTips[tipNumber];
}

bool cutsInside(const Tool& tool) {
    return tool.kind == ToolKind::Threading ? tool.inside : tipFromNoseCentre(tool.tipNumber).r > 0;
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
    tool.holderSteps = holderSteps(tool);
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
