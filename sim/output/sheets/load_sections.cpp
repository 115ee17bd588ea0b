// Loads and grip as far as the trial knows them.
#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "sim/output/clearance_report.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/sheets/tool_use.h"

namespace firstoff {

namespace {

const ToolBending* bendingOf(const Trial& trial, std::uint32_t call) {
    const auto& tools = trial.bending.tools;
    const auto found = std::find_if(tools.begin(), tools.end(), [&](const ToolBending& b) { return b.call == call; });
    return found == tools.end() || !trial.bending.known ? nullptr : &*found;
}

std::string newtons(double force) {
    return figure(force, 0) + " N";
}

}  // namespace

SheetSection loadsSection(const Trial& trial) {
    SheetSection section;
    section.heading = "Greatest loads of each tool";
    const LoadResult& loads = trial.loads;
    if (!loads.forcesKnown || loads.tools.empty()) return section;
    SheetTable table;
    table.columns = {{"Tool", "", SheetColumn::Kind::Text},
                     {"Power at the cut", "kW", SheetColumn::Kind::Figure},
                     {"in line", "", SheetColumn::Kind::Figure},
                     {"Torque", "Nm", SheetColumn::Kind::Figure},
                     {"Cutting force", "N", SheetColumn::Kind::Figure},
                     {"in line", "", SheetColumn::Kind::Figure},
                     {"Ø error by bending", "mm", SheetColumn::Kind::Figure}};
    for (const ToolLoad& tool : loads.tools) {
        const ToolBending* bending = bendingOf(trial, tool.call);
        table.rows.push_back({toolWord(trial.toolpath.calls[tool.call].station), figure(tool.powerKw.value, 2),
                              std::to_string(lineOfMove(trial, tool.powerKw.timedMove)), figure(tool.torqueNm.value, 1),
                              figure(tool.cuttingN.value, 0),
                              std::to_string(lineOfMove(trial, tool.cuttingN.timedMove)),
                              bending == nullptr ? "–" : figure(bending->worstMm, 3)});
    }
    section.parts.emplace_back(std::move(table));
    std::string source = "Forces by the specific cutting force of " + trial.setup.material.name;
    if (!trial.setup.material.source.empty()) source += " (" + shortened(trial.setup.material.source, 160) + ")";
    section.parts.emplace_back(minor(source + ", for sharp edges."));
    std::vector<std::string> taken = loads.assumed;
    addOnce(taken, trial.bending.assumed);
    for (const std::string& text : taken) section.parts.emplace_back(item(text));
    for (const std::string& text : loads.notReckoned) section.parts.emplace_back(item(text));
    return section;
}

SheetSection gripSection(const Trial& trial) {
    SheetSection section;
    section.heading = "Grip, estimated";
    const HoldingResult& holding = trial.holding;
    if (!holding.grip && holding.missing.empty()) return section;
    if (holding.grip) {
        const GripEstimate& g = *holding.grip;
        SheetFacts facts;
        facts.facts = {{"Grip set, standing", newtons(trial.setup.chuck.gripForceN)},
                       {"asked for, standing", newtons(g.neededStandingN)},
                       {"left at speed", newtons(g.leftN)},
                       {"needed at speed", newtons(g.neededN)},
                       {"Cut that asks most", fmt::format("line {}", lineOfMove(trial, g.timedMove))},
                       {"its speed", figure(g.revPerMin, 0) + " rev/min"},
                       {"gripped on", "Ø" + shortFigure(g.gripDiameterMm, 3)},
                       {"Factors: force, speed, friction",
                        fmt::format("{}, {}, {}", shortFigure(g.forceSafety, 2), shortFigure(g.speedSafety, 2),
                                    shortFigure(g.friction, 3))}};
        if (g.permittedRevPerMin > 0) {
            facts.facts.push_back({"Speed up to which it would hold", figure(g.permittedRevPerMin, 0) + " rev/min"});
        }
        section.parts.emplace_back(std::move(facts));
        if (g.neededStandingN > trial.setup.chuck.gripForceN) {
            section.parts.emplace_back(
                caution("By this estimate the grip as it is set is less than the cut asks for."));
        }
    } else {
        section.parts.emplace_back(plain("Not estimated. The set-up would have to say:"));
        for (const std::string& text : holding.missing) section.parts.emplace_back(item(text));
    }
    for (const std::string& text : holding.assumed) section.parts.emplace_back(item(text));
    section.parts.emplace_back(
        caution("An estimate: what grip and speed hold a part is for the chuck maker's chart and authorised people to "
                "decide."));
    return section;
}

}  // namespace firstoff
