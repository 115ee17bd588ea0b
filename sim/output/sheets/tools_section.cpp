// Tools in order of use.
#include <algorithm>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/sheets/tool_sketch.h"
#include "sim/output/sheets/tool_use.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

std::string rangeOf(const Extent& extent, int decimals) {
    const std::string least = shortFigure(extent.least, decimals), most = shortFigure(extent.most, decimals);
    return least == most ? most : say("{} to {}", least, most);
}

std::string speedOf(const ToolUse& use) {
    std::string text;
    if (use.surfaceSpeed.any) {
        text = rangeOf(use.surfaceSpeed, 1) + " m/min";
        text += use.clamp.any ? say(", at most {} rev/min", rangeOf(use.clamp, 0)) : tr(", no clamp");
        text += "; ";
    }
    return text + say("{} rev/min", rangeOf(use.revPerMin, 0));
}

std::string feedOf(const ToolUse& use) {
    std::string text;
    const auto add = [&](const Extent& extent, auto inWords) {
        if (!extent.any) return;
        text += text.empty() ? "" : "; ";
        text += inWords(rangeOf(extent, 4));
    };
    add(use.feedPerRev, [](const std::string& feed) { return say("{} mm/rev", feed); });
    add(use.feedPerMin, [](const std::string& feed) { return say("{} mm/min", feed); });
    add(use.lead, [](const std::string& lead) { return say("lead {} mm", lead); });
    return text;
}

std::string turnOf(const ToolUse& use) {
    std::string text;
    const auto add = [&](bool any, const char* word) {
        if (any) text += (text.empty() ? "" : ", ") + std::string(word);
    };
    add(use.forward, "M03");
    add(use.reverse, "M04");
    add(use.stopped, tr("standing"));
    return text;
}

std::string coolantOf(const ToolUse& use) {
    if (use.coolantOn && use.coolantOff) return tr("on and off");
    return use.coolantOn ? tr("on") : tr("off");
}

std::string linesOf(const Program& program, const std::vector<BlockId>& blocks) {
    constexpr std::size_t kMost = 6;
    std::string text;
    for (std::size_t i = 0; i < std::min(blocks.size(), kMost); ++i) {
        text += (i == 0 ? "" : ", ") + lineWord(program, blocks[i]);
    }
    return blocks.size() > kMost ? text + ", …" : text;
}

std::string offsetsOf(const ToolUse& use) {
    std::string text;
    for (int offset : use.offsets) text += (text.empty() ? "" : ", ") + std::to_string(offset);
    return text.empty() ? tr("none") : text;
}

void addHolder(std::vector<SheetFact>& facts, const Tool& tool) {
    if (tool.head && !tool.head->designation.empty()) facts.push_back({tr("Holder"), tool.head->designation});
    if (tool.overhang > 0) facts.push_back({tr("Overhang"), shortFigure(tool.overhang, 3) + " mm"});
    const double shank = tool.head && tool.head->shankWidth > 0 ? tool.head->shankWidth : tool.shankSize;
    if (!worksOnTheAxis(tool.kind)) facts.push_back({tr("Shank"), shortFigure(shank, 3) + " mm"});
}

std::vector<SheetFact> factsOf(const Trial& trial, const ToolUse& use, const Tool& tool) {
    std::vector<SheetFact> facts;
    facts.push_back({tr("Offset"), offsetsOf(use)});
    facts.push_back({tr("First used"), say("line {}", linesOf(trial.program, use.calls))});
    if (!worksOnTheAxis(tool.kind)) facts.push_back({tr("Tip number"), std::to_string(tool.tipNumber)});
    const bool insert = tool.kind == ToolKind::Turning || tool.kind == ToolKind::Boring;
    if (insert && tool.insertShape != 'R') {
        facts.push_back({tr("Entering angle"), shortFigure(degrees(tool.enteringAngle), 2) + "°"});
    }
    if (tool.cuttingDepth > 0) facts.push_back({tr("Cuts as deep as"), shortFigure(tool.cuttingDepth, 3) + " mm"});
    if (tool.fluteLength > 0) facts.push_back({tr("Flutes"), shortFigure(tool.fluteLength, 3) + " mm"});
    addHolder(facts, tool);
    if (tool.centreHeight != 0) facts.push_back({tr("Off centre height"), figure(tool.centreHeight, 3) + " mm"});
    facts.push_back({tr("Mounted for"), tool.needs == SpindleDirection::Reverse ? "M04" : "M03"});
    if (use.revPerMin.any) {
        facts.push_back({tr("Speed"), speedOf(use)});
        facts.push_back({tr("Feed"), feedOf(use)});
        facts.push_back({tr("Spindle"), turnOf(use)});
        facts.push_back({tr("Coolant"), coolantOf(use)});
        if (use.cuttingS > 0) facts.push_back({tr("At feed"), durationInWords(use.cuttingS)});
    }
    return facts;
}

SheetCard cardOf(const Trial& trial, const ToolUse& use) {
    SheetCard card;
    if (use.toolIndex < 0) {
        card.heading = toolWord(use.station) + tr("  no tool in the set-up");
        card.facts = {{tr("Called in"), say("line {}", linesOf(trial.program, use.calls))},
                      {tr("Offset"), offsetsOf(use)}};
        card.remarks.emplace_back(tr("What stands in this station is not known, so nothing is proven about it."));
        return card;
    }
    const Tool& tool = trial.setup.tools[static_cast<std::size_t>(use.toolIndex)];
    card.heading =
        toolWord(use.station) + "  " + (tool.name.empty() ? "" : shortened(tool.name, 80) + " – ") + toolInWords(tool);
    card.picture = toolSketch(tool, use);
    card.facts = factsOf(trial, use, tool);
    if (!use.revPerMin.any) card.remarks.emplace_back(tr("Called, but never fed."));
    if (tool.holder.empty()) card.remarks.emplace_back(tr("The set-up says too little of its holder to draw it."));
    return card;
}

// An X on the offset page or in the set-up, as diameter.
std::string diameter(double radius) {
    return figure(2 * radius, 3);
}

SheetTable offsetTable(const Trial& trial, const std::vector<ToolUse>& uses) {
    SheetTable table;
    table.columns = {
        {tr("Offset"), "", SheetColumn::Kind::Figure},       {tr("Tool"), "", SheetColumn::Kind::Text},
        {tr("Gauge X"), "mm, Ø", SheetColumn::Kind::Figure}, {tr("Gauge Z"), "mm", SheetColumn::Kind::Figure},
        {tr("Wear X"), "mm, Ø", SheetColumn::Kind::Figure},  {tr("Wear Z"), "mm", SheetColumn::Kind::Figure},
        {tr("Nose R"), "mm", SheetColumn::Kind::Figure},     {tr("Tip"), "", SheetColumn::Kind::Figure}};
    for (const ToolUse& use : uses) {
        for (int number : use.offsets) {
            const Offset* offset = trial.setup.offset(number);
            const Tool* tool =
                use.toolIndex < 0 ? nullptr : &trial.setup.tools[static_cast<std::size_t>(use.toolIndex)];
            std::vector<std::string> row = {std::to_string(number), toolWord(use.station)};
            const bool own = offset == nullptr || !offset->gauge;
            if (own && tool == nullptr) {
                row.insert(row.end(), {"–", "–"});
            } else {
                const Point gauge = own ? tool->tip : *offset->gauge;
                row.insert(row.end(), {diameter(gauge.r), figure(gauge.z, 3)});
            }
            const Point wear = offset == nullptr ? Point{} : offset->wear;
            row.insert(row.end(), {diameter(wear.r), figure(wear.z, 3)});
            const bool hasNose = tool != nullptr && !worksOnTheAxis(tool->kind);
            const bool entered = offset != nullptr && offset->noseRadius.has_value();
            row.push_back(entered                           ? shortFigure(*offset->noseRadius, 3)
                          : hasNose && tool->noseRadius > 0 ? shortFigure(tool->noseRadius, 3)
                                                            : "–");
            row.push_back(offset != nullptr && offset->tipNumber ? std::to_string(*offset->tipNumber)
                          : hasNose                              ? std::to_string(tool->tipNumber)
                                                                 : "–");
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

}  // namespace

SheetSection toolsSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Tools in order of use");
    const std::vector<ToolUse> uses = toolUses(trial);
    if (uses.empty()) {
        section.parts.emplace_back(plain(tr("The program calls no tool.")));
        return section;
    }
    for (const ToolUse& use : uses) section.parts.emplace_back(cardOf(trial, use));
    section.parts.emplace_back(minor(
        tr("Speeds and feeds are those used while metal comes off. Pictures look at the tool with the chuck to the "
           "left and the spindle axis below; the cross is the gauged tip, the arrow its feed.")));
    SheetTable offsets = offsetTable(trial, uses);
    if (!offsets.rows.empty()) {
        section.parts.emplace_back(std::move(offsets));
        section.parts.emplace_back(minor(
            tr("Gauge: from the turret reference point to the tip, as entered; where nothing is entered, as the tool "
               "sits in the set-up. Nose and tip likewise.")));
    }
    return section;
}

}  // namespace firstoff
