// Loads, grip, bending and edges as far as the trial knows them.
#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/clearance_report.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/sheets/tool_use.h"

namespace firstoff {

namespace {

const ToolBending* bendingOf(const Trial& trial, std::uint32_t call) {
    const auto& tools = trial.bending.tools;
    const auto found = std::find_if(tools.begin(), tools.end(), [&](const ToolBending& b) { return b.call == call; });
    const bool known = trial.bending.known && found != tools.end() && found->finishes;
    return known ? &*found : nullptr;
}

std::string newtons(double force) {
    return figure(force, 0) + " N";
}

std::string lineWordOf(const Trial& trial, std::size_t timedMove) {
    return std::to_string(lineOfMove(trial, timedMove));
}

void addItems(SheetSection& section, const std::vector<std::string>& texts) {
    for (const std::string& text : texts) section.parts.emplace_back(item(text));
}

// A figure that would read as nothing is told as what it is below.
std::string offWord(double mm) {
    constexpr double kToldMm = 0.001;
    return std::abs(mm) < kToldMm ? "< 0.001" : figure(mm, 3);
}

SheetFacts gripFacts(const Trial& trial, const GripEstimate& g) {
    SheetFacts facts;
    facts.facts = {{tr("Grip set, standing"), newtons(g.standingN)},
                   {tr("asked for, standing"), newtons(g.neededStandingN)},
                   {tr("left at speed"), newtons(g.leftN)},
                   {tr("needed at speed"), newtons(g.neededN)},
                   {tr("Cut that asks most"), say("line {}", lineWordOf(trial, g.timedMove))},
                   {tr("its speed"), say("{} rev/min", figure(g.revPerMin, 0))},
                   {tr("gripped on"), "Ø" + shortFigure(g.gripDiameterMm, 3)},
                   {tr("Factors: force, speed; friction"),
                    fmt::format("{}, {}; {}", shortFigure(g.forceSafety, 2), shortFigure(g.speedSafety, 2),
                                shortFigure(g.friction, 3))}};
    if (g.permittedRevPerMin > 0) {
        facts.facts.push_back(
            {tr("Speed up to which it would hold"), say("{} rev/min", figure(g.permittedRevPerMin, 0))});
    }
    return facts;
}

}  // namespace

bool tellsBending(const Trial& trial) {
    const auto& tools = trial.loads.tools;
    return trial.loads.forcesKnown && std::any_of(tools.begin(), tools.end(), [&](const ToolLoad& tool) {
               return bendingOf(trial, tool.call) != nullptr;
           });
}

SheetSection loadsSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Greatest loads of each tool");
    const LoadResult& loads = trial.loads;
    if (!loads.forcesKnown || loads.tools.empty()) return section;
    SheetTable table;
    table.columns = {{tr("Tool"), "", SheetColumn::Kind::Text},
                     {tr("Power at the cut"), "kW", SheetColumn::Kind::Figure},
                     {tr("in line"), "", SheetColumn::Kind::Figure},
                     {tr("Torque"), "Nm", SheetColumn::Kind::Figure},
                     {tr("Cutting force"), "N", SheetColumn::Kind::Figure},
                     {tr("in line"), "", SheetColumn::Kind::Figure},
                     {tr("Ø off by giving way"), "mm", SheetColumn::Kind::Figure}};
    for (const ToolLoad& tool : loads.tools) {
        const ToolBending* bending = bendingOf(trial, tool.call);
        table.rows.push_back({toolWord(trial.toolpath.calls[tool.call].station), figure(tool.powerKw.value, 2),
                              lineWordOf(trial, tool.powerKw.timedMove), figure(tool.torqueNm.value, 1),
                              figure(tool.cuttingN.value, 0), lineWordOf(trial, tool.cuttingN.timedMove),
                              bending == nullptr ? "–" : offWord(bending->greatest.errorMm)});
    }
    section.parts.emplace_back(std::move(table));
    if (!loads.notReckoned.empty()) section.parts.emplace_back(plain(tr("Not reckoned:")));
    addItems(section, loads.notReckoned);
    return section;
}

SheetSection edgesSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Edges");
    const bool any = std::any_of(trial.edges.begin(), trial.edges.end(),
                                 [](const EdgeUse& use) { return use.partsPerEdge.has_value(); });
    if (!any) return section;
    SheetTable table;
    table.columns = {{tr("Tool"), "", SheetColumn::Kind::Text},
                     {tr("In metal"), "s", SheetColumn::Kind::Figure},
                     {tr("Greatest speed"), "m/min", SheetColumn::Kind::Figure},
                     {tr("of an edge"), "%", SheetColumn::Kind::Figure},
                     {tr("Parts an edge"), "", SheetColumn::Kind::Figure},
                     {tr("Parts an insert"), "", SheetColumn::Kind::Figure}};
    const auto whole = [](const std::optional<double>& parts) { return parts ? figure(std::floor(*parts), 0) : "–"; };
    for (const EdgeUse& use : trial.edges) {
        table.rows.push_back({toolWord(trial.setup.tools[static_cast<std::size_t>(use.toolIndex)].station),
                              figure(use.cuttingS, 1), figure(use.greatestMPerMin, 0),
                              use.share ? figure(100 * *use.share, 1) : "–", whole(use.partsPerEdge),
                              whole(use.partsPerInsert)});
    }
    section.parts.emplace_back(std::move(table));
    section.parts.emplace_back(minor(
        tr("By Taylor's V T^n = C with the n and C of the set-up; they hold for one edge in one material at one feed "
           "and depth. Look at the edges all the same.")));
    return section;
}

SheetSection gripSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Grip, estimated");
    const HoldingResult& holding = trial.holding;
    if (!holding.grip && !holding.speed && !holding.centre && holding.missing.empty()) return section;
    if (holding.grip) {
        section.parts.emplace_back(gripFacts(trial, *holding.grip));
        if (!holding.grip->holds()) {
            section.parts.emplace_back(
                caution(tr("By this estimate the grip as it is set is less than the cut asks for.")));
        }
    } else if (!holding.missing.empty()) {
        section.parts.emplace_back(plain(tr("Not estimated. The set-up would have to say:")));
    }
    addItems(section, holding.missing);
    SheetFacts more;
    if (holding.speed) {
        more.facts.push_back({say("Lost at {} rev/min, the highest speed", figure(holding.speed->revPerMin, 0)),
                              say("{} % of the standing grip", figure(100 * holding.speed->lossShare, 0))});
    }
    if (holding.centre) {
        more.facts.push_back({tr("Cut pushes at the centre with"), say("{}, line {}", newtons(holding.centre->pushN()),
                                                                       lineWordOf(trial, holding.centre->timedMove))});
    }
    if (!more.facts.empty()) section.parts.emplace_back(std::move(more));
    section.parts.emplace_back(caution(tr(kGripCaution)));
    return section;
}

}  // namespace firstoff
