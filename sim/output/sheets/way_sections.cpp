// How the tools come to the work, and how wrong things may be.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/told_apart.h"
#include "sim/output/clearance_report.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/sheets/tool_use.h"

namespace firstoff {

namespace {

// By how much the section may have been drawn thinner than it is.
constexpr double kDrawnMm = 0.005;

// On the safe side, to a hundredth.
std::string gapWord(double gap) {
    if (!std::isfinite(gap)) return "–";
    return figure(std::max(0.0, std::floor(gap * 100 + 1e-6) / 100), 2);
}

std::string marginWord(const Margin& margin, double factor) {
    if (margin.mm >= kMarginLimit) return fmt::format("> {:.0f}", factor * kMarginLimit);
    return figure(std::max(0.0, std::floor(factor * margin.mm * 100 + 1e-6) / 100), 2);
}

const std::string& bodyName(const Trial& trial, std::uint16_t body) {
    return trial.clearance.bodies->bodies[body].name;
}

std::string nearestOf(const Trial& trial, const FirstMoves& moves) {
    if (!moves.known || !std::isfinite(moves.gapMm)) return {};
    const Clearance& c = trial.clearance.perMove[moves.nearestMove];
    return say("{} / {}, line {}", bodyName(trial, c.body), bodyName(trial, c.other),
               lineOfMove(trial, moves.nearestMove));
}

// What is met first of all ways in which a tool may be wrong.
std::string firstOf(const Trial& trial, const ToolMargins& t) {
    const Margin* least = nullptr;
    for (const Margin* m : {&t.xLarger, &t.xSmaller, &t.zAway, &t.zToward, &t.overhangLess, &t.overhangMore}) {
        if (m->mm < kMarginLimit && (least == nullptr || m->mm < least->mm)) least = m;
    }
    return least == nullptr ? ""
                            : say("{} / {}, line {}", bodyName(trial, least->body), bodyName(trial, least->other),
                                  lineOfMove(trial, least->timedMove));
}

}  // namespace

SheetSection firstMovesSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("First moves of each tool");
    SheetTable table;
    table.columns = {{tr("Tool"), "", SheetColumn::Kind::Text},
                     {tr("Line"), "", SheetColumn::Kind::Figure},
                     {tr("Comes to X"), "Ø", SheetColumn::Kind::Figure},
                     {"Z", "", SheetColumn::Kind::Figure},
                     {tr("Edge to metal"), "mm", SheetColumn::Kind::Figure},
                     {tr("All else"), "mm", SheetColumn::Kind::Figure},
                     {tr("between"), "", SheetColumn::Kind::Text}};
    for (const FirstMoves& moves : firstMoves(trial)) {
        table.rows.push_back({toolWord(moves.station), lineWord(trial.program, moves.block),
                              figure(2 * moves.programmed.r, 3), figure(moves.programmed.z, 3),
                              gapWord(moves.edgeMm - kDrawnMm), moves.known ? gapWord(moves.gapMm) : "–",
                              nearestOf(trial, moves)});
    }
    if (table.rows.empty()) return section;
    section.parts.emplace_back(std::move(table));
    section.parts.emplace_back(
        minor(tr("From the index of the tool to its first feed: where the last rapid ends, as the program says it; how "
                 "near its edge comes to the metal at rapid, and how near all else comes to anything on the way.")));
    return section;
}

SheetSection marginsSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("How wrong it may be before the first contact");
    const Margins& margins = trial.clearance.margins;
    if (margins.tools.empty()) return section;
    SheetTable table;
    table.columns = {{tr("Tool"), "", SheetColumn::Kind::Text},
                     {tr("X further out"), "mm, Ø", SheetColumn::Kind::Figure},
                     {tr("X further in"), "mm, Ø", SheetColumn::Kind::Figure},
                     {tr("Z away from chuck"), "mm", SheetColumn::Kind::Figure},
                     {tr("Z towards it"), "mm", SheetColumn::Kind::Figure},
                     {tr("Overhang shorter"), "mm", SheetColumn::Kind::Figure},
                     {tr("Overhang longer"), "mm", SheetColumn::Kind::Figure},
                     {tr("What meets first"), "", SheetColumn::Kind::Text}};
    for (const ToolMargins& t : margins.tools) {
        // What stands on the axis has no X but that one.
        const bool onAxis =
            t.toolIndex >= 0 && worksOnTheAxis(trial.setup.tools[static_cast<std::size_t>(t.toolIndex)].kind);
        table.rows.push_back({toolWord(t.station), onAxis ? afterBar(tr("axis|centre")) : marginWord(t.xLarger, 2),
                              onAxis ? afterBar(tr("axis|centre")) : marginWord(t.xSmaller, 2), marginWord(t.zAway, 1),
                              marginWord(t.zToward, 1), marginWord(t.overhangLess, 1), marginWord(t.overhangMore, 1),
                              firstOf(trial, t)});
    }
    section.parts.emplace_back(std::move(table));
    const SetupMargins& s = margins.setup;
    const auto way = [](const Margin& m) { return marginWord(m, 1) + " mm"; };
    section.parts.emplace_back(SheetFacts{{{tr("Bar further out"), way(s.stickOutMore)},
                                           {tr("Bar less far out"), way(s.stickOutLess)},
                                           {tr("Datum away from the chuck"), way(s.datumAway)},
                                           {tr("Datum towards the chuck"), way(s.datumToward)}}});
    section.parts.emplace_back(
        minor(say("Reckoned with the metal as the program leaves it, up to {:.0f} mm; an edge counts against the "
                  "metal at rapid, until it cuts. No allowance for a bar that runs out or a tool that is blunt.",
                  kMarginLimit)));
    return section;
}

}  // namespace firstoff
