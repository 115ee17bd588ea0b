#include "sim/trial/what_if.h"

#include <algorithm>

#include "sim/setup/offset_page.h"

namespace firstoff {

namespace {

void change(Tool& tool, const WhatIf::Edge& edge) {
    tool.centreHeight += edge.centreHeightMm;
    if (edge.noseRadiusMm < 0 || !hasNose(tool)) return;
    tool.noseRadius = edge.noseRadiusMm;
    giveShape(tool);
}

}  // namespace

bool WhatIf::empty() const {
    const bool worn = std::any_of(wears.begin(), wears.end(), [](const Wear& w) { return w.xMm != 0 || w.zMm != 0; });
    const bool other = std::any_of(edges.begin(), edges.end(),
                                   [](const Edge& e) { return e.noseRadiusMm >= 0 || e.centreHeightMm != 0; });
    const bool switched = optionalStop || blockSkipLevels || dryRunMmPerMin > 0;
    return !worn && !other && datumZMm == 0 && feed == 1 && rapid == 1 && spindle == 1 && !switched;
}

WhatIf WhatIf::panel() const {
    WhatIf only = *this;
    only.wears.clear();
    only.edges.clear();
    only.datumZMm = 0;
    return only;
}

bool hasNose(const Tool& tool) {
    return tool.kind == ToolKind::Turning || tool.kind == ToolKind::Boring;
}

Setup withChanges(Setup setup, const WhatIf& whatIf) {
    for (const WhatIf::Wear& wear : whatIf.wears) {
        if (wear.offset <= 0 || (wear.xMm == 0 && wear.zMm == 0)) continue;
        Point& entered = offsetEntry(setup, wear.offset).wear;
        entered = entered + Point{wear.zMm, wear.xMm / 2};
    }
    for (const WhatIf::Edge& edge : whatIf.edges) {
        for (Tool& tool : setup.tools) {
            if (tool.station == edge.station) change(tool, edge);
        }
    }
    for (std::size_t i = 0; i < kWorkOffsets; ++i) {
        if (setup.workOffsetGiven[i])
            setup.workOffsets[i].z += whatIf.datumZMm + (whatIf.dryRunMmPerMin > 0 ? whatIf.dryRunClearMm : 0);
    }
    setup.overrides.feed *= whatIf.feed;
    setup.overrides.rapid *= whatIf.rapid;
    setup.overrides.spindle *= whatIf.spindle;
    setup.overrides.dryRunMmPerMin = whatIf.dryRunMmPerMin;
    if (whatIf.optionalStop) setup.control.optionalStop = *whatIf.optionalStop;
    if (whatIf.blockSkipLevels) setup.control.blockSkipLevels = *whatIf.blockSkipLevels;
    return setup;
}

}  // namespace firstoff
