#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"

namespace firstoff {

namespace {

std::string millimetres(double length) {
    return shortFigure(length, 3) + " mm";
}

std::string diameterOf(double radius) {
    return "Ø" + shortFigure(2 * radius, 3);
}

std::string blankInWords(const Stock& stock) {
    switch (stock.shape) {
        case Stock::Shape::Round:
            if (stock.boreRadius > 0)
                return say("tube {} bored {}", diameterOf(stock.outerRadius), diameterOf(stock.boreRadius));
            return say("bar {}", diameterOf(stock.outerRadius));
        case Stock::Shape::Hexagon:
            return say("hexagon {} across flats", shortFigure(stock.acrossFlats, 3));
        case Stock::Shape::Square:
            return say("square {} across flats", shortFigure(stock.acrossFlats, 3));
        case Stock::Shape::CrossSection:
            return say("drawn cross-section, {}", shortened(stock.drawingFile, 60));
        case Stock::Shape::HalfSection:
            return say("turned before, {}", shortened(stock.drawingFile, 60));
        case Stock::Shape::Previous:
            return say("what {} left", shortened(stock.previousProgram, 60));
    }
    return {};
}

std::string jawsInWords(const Chuck& chuck) {
    if (chuck.kind == Chuck::Kind::Collet) return tr("collet");
    constexpr std::array<const char*, 3> kJaw = {later("hard"), later("soft, bored on the machine"), later("stepped")};
    return say("{} jaws, {}", chuck.jaws, tr(kJaw[static_cast<std::size_t>(chuck.jaw)]));
}

double greatestSpeed(const Trial& trial) {
    double most = 0;
    for (const TimedMove& timed : trial.timeline.moves) most = std::max({most, timed.rpmStart, timed.rpmEnd});
    return most;
}

std::string tailstockInWords(const Tailstock& t) {
    std::string text = t.advanced ? tr("advanced") : tr("parked");
    text += say(", point of the centre {} from the chuck face", millimetres(t.tipZ));
    if (t.advancedZ) text += say("; M code takes it to {}", millimetres(*t.advancedZ));
    if (t.forceN > 0) text += say("; force {} N", shortFigure(t.forceN, 0));
    return text;
}

SheetFacts holdingFacts(const Trial& trial) {
    const Setup& setup = trial.setup;
    const Chuck& chuck = setup.chuck;
    SheetFacts facts;
    const auto add = [&](const char* label, std::string value) { facts.facts.push_back({label, std::move(value)}); };
    add(tr("Held in"), jawsInWords(chuck));
    add(tr("Grips"), chuck.grip == Chuck::Grip::Inside ? tr("from inside") : tr("from outside"));
    const double jawLength = chuck.jawLength;
    if (setup.stock.frontZ > setup.stock.backZ) {
        add(tr("Stick-out from the jaws"), millimetres(setup.stock.frontZ - jawLength));
        add(tr("Length of the blank"), millimetres(setup.stock.frontZ - setup.stock.backZ));
    }
    if (chuck.bodyRadius > 0) add(tr("Chuck"), diameterOf(chuck.bodyRadius));
    if (chuck.throughBoreRadius) add(tr("Bore through it"), diameterOf(*chuck.throughBoreRadius));
    if (chuck.gripForceN > 0) add(tr("Grip force, standing"), fmt::format("{} N", shortFigure(chuck.gripForceN, 0)));
    add(tr("Speed marked on the chuck"), chuck.maxRevPerMin > 0 ? say("{} rev/min", shortFigure(chuck.maxRevPerMin, 0))
                                                                : tr("not in the set-up: read it off the chuck"));
    add(tr("Highest speed of the program"), say("{} rev/min", figure(greatestSpeed(trial), 0)));
    add(tr("Tailstock"), setup.tailstock ? tailstockInWords(*setup.tailstock) : tr("none"));
    if (setup.secondSpindle) {
        add(tr("Second spindle"),
            say("chuck face at Z{} at the start, grips at Z{} (from the chuck face)",
                shortFigure(setup.secondSpindle->startZ, 3), shortFigure(setup.secondSpindle->approachZ, 3)));
    }
    if (setup.steadyRest) {
        add(tr("Steady rest"), say("{} from the chuck face, rollers on {}", millimetres(setup.steadyRest->z),
                                   diameterOf(setup.steadyRest->barRadius)));
    }
    return facts;
}

SheetFacts stockFacts(const Stock& stock) {
    SheetFacts facts;
    facts.facts.push_back({tr("Blank"), blankInWords(stock)});
    facts.facts.push_back({tr("Length"), millimetres(stock.frontZ - stock.backZ)});
    facts.facts.push_back(
        {tr("Material"), stock.material.empty() ? tr("not in the set-up") : shortened(stock.material, 80)});
    if (stock.eccentricity != 0) facts.facts.push_back({tr("Off centre"), millimetres(stock.eccentricity)});
    if (stock.turnedRound) facts.facts.push_back({tr("Turned round"), tr("the other end looks out of the chuck")});
    return facts;
}

SheetTable datumTable(const Trial& trial) {
    SheetTable table;
    table.columns = {{tr("Work offset"), "", SheetColumn::Kind::Text},
                     {tr("Z0 from chuck face"), "mm", SheetColumn::Kind::Figure},
                     {tr("from the jaws"), "mm", SheetColumn::Kind::Figure},
                     {tr("from the end of the blank"), "mm", SheetColumn::Kind::Figure},
                     {"X0", "mm, Ø", SheetColumn::Kind::Figure},
                     {tr("In the program"), "", SheetColumn::Kind::Text}};
    const Setup& setup = trial.setup;
    std::vector<bool> used(kWorkOffsets, false);
    for (const Move& move : trial.toolpath.moves) {
        used[static_cast<std::size_t>(trial.toolpath.modals[move.modal].workOffset)] = true;
    }
    for (std::size_t i = 0; i < kWorkOffsets; ++i) {
        if (!used[i] && !setup.workOffsetGiven[i]) continue;
        const Point datum = setup.workOffsets[i];
        const std::string name = workOffsetName(static_cast<int>(i));
        const std::string use = used[i] ? tr("used") : tr("not used");
        if (!setup.workOffsetGiven[i]) {
            table.rows.push_back({name, "–", "–", "–", "–", use + tr(", not in the set-up")});
            continue;
        }
        table.rows.push_back({name, figure(datum.z, 3), figure(datum.z - setup.chuck.jawLength, 3),
                              figure(datum.z - setup.stock.frontZ, 3), figure(2 * datum.r, 3), use});
    }
    return table;
}

SheetSection notesSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Notes to the setter");
    const std::vector<std::string> remarks = headRemarks(trial.program);
    if (!remarks.empty()) section.parts.emplace_back(plain(tr("The program begins with these remarks:")));
    for (const std::string& remark : remarks) {
        section.parts.emplace_back(SheetParagraph{SheetParagraph::Kind::Quote, remark});
    }
    std::size_t stops = 0;
    for (const ProgramStop& stop : trial.toolpath.stops) stops += stop.kind != ProgramStop::Kind::End ? 1 : 0;
    if (stops > 0) {
        section.parts.emplace_back(item(stops == 1 ? std::string(tr("The program stops once on the way (M00, M01)."))
                                                   : say("The program stops {} times on the way (M00, M01).", stops)));
    }
    section.parts.emplace_back(item(
        tr("Before the first part: dry run away from the work, single block, rapid override low, a hand on the feed "
           "hold, guards shut.")));
    return section;
}

void addIfAny(Sheet& sheet, SheetSection section) {
    if (!section.parts.empty()) sheet.sections.push_back(std::move(section));
}

// Of grip and loads, which are told above.
std::vector<std::string> grantedOf(const Trial& trial) {
    std::vector<std::string> all = trial.holding.assumed;
    if (trial.loads.forcesKnown && !trial.loads.tools.empty()) addOnce(all, trial.loads.assumed);
    if (tellsBending(trial)) addOnce(all, trial.bending.assumed);
    return all;
}

}  // namespace

Sheet setupSheet(const Trial& trial, const SheetOptions& options) {
    Sheet sheet = sheetFrame(trial, tr("Set-up sheet"), options);
    sheet.sections.push_back(verdictSection(trial));
    SheetSection holding;
    holding.heading = tr("Holding and datum");
    holding.parts.emplace_back(SheetFigure{holdingSketch(trial, options.figureMm), ""});
    holding.parts.emplace_back(holdingFacts(trial));
    sheet.sections.push_back(std::move(holding));
    SheetSection stock;
    stock.heading = tr("Blank and work offsets");
    stock.parts.emplace_back(stockFacts(trial.setup.stock));
    SheetTable datums = datumTable(trial);
    if (!datums.rows.empty()) stock.parts.emplace_back(std::move(datums));
    sheet.sections.push_back(std::move(stock));
    sheet.sections.push_back(toolsSection(trial));
    addIfAny(sheet, firstMovesSection(trial));
    addIfAny(sheet, marginsSection(trial));
    addIfAny(sheet, gripSection(trial));
    addIfAny(sheet, loadsSection(trial));
    addIfAny(sheet, edgesSection(trial));
    sheet.sections.push_back(notesSection(trial));
    addIfAny(sheet, grantedSection(grantedOf(trial)));
    addIfAny(sheet, notCheckedSection(trial));
    return sheet;
}

}  // namespace firstoff
