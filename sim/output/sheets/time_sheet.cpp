#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/sheets/sketch_marks.h"
#include "sim/output/table_figures.h"
#include "sim/output/time_report.h"

namespace firstoff {

namespace {

// The words of the report are short; on paper each says what it is.
constexpr std::array<const char*, kTimeKinds> kKindWords = {later("cutting"), later("at feed in air"), later("rapid"),
                                                            later("index"),   later("spindle speed"),  later("dwell"),
                                                            later("other")};

std::string seconds(double s) {
    return figure(s, 1);
}

std::string share(double part, double whole) {
    return whole > 0 ? figure(100 * part / whole, 1) : "–";
}

// Bars one below another, each as long as its share of the greatest; figures say the rest.
Sketch barsOf(const TimeShare& whole, double widthMm) {
    constexpr double kRow = 6.5, kBar = 4, kTop = 1;
    double names = 0, greatest = 0;
    for (std::size_t k = 0; k < kTimeKinds; ++k) {
        names = std::max(names, letteringWidth(tr(kKindWords[k]), kLetterMm));
        greatest = std::max(greatest, whole.seconds[k]);
    }
    const double from = names + 3, to = widthMm - letteringWidth("99999.9 s  100.0 %", kLetterMm) - 3;
    Sketch sketch;
    sketch.title = tr("Cycle time by kind of work");
    sketch.width = widthMm;
    double y = kTop;
    for (std::size_t k = 0; k < kTimeKinds; ++k) {
        const double length = greatest > 0 ? (to - from) * whole.seconds[k] / greatest : 0;
        addText(sketch, {from - 2, y + kBar / 2 + kLetterMm / 2}, tr(kKindWords[k]), Lettering::Anchor::End);
        const bool cutting = k == static_cast<std::size_t>(TimeKind::Cutting);
        addPolygon(sketch, {{from, y}, {from + length, y}, {from + length, y + kBar}, {from, y + kBar}},
                   LineKind::Narrow, cutting ? Shade::Ink : Shade::Middle);
        addText(sketch, {from + length + 1.5, y + kBar / 2 + kLetterMm / 2},
                fmt::format("{} s  {} %", seconds(whole.seconds[k]), share(whole.seconds[k], whole.total())));
        y += kRow;
    }
    sketch.height = y;
    return sketch;
}

SheetTable rowsOf(const Trial& trial, const std::vector<TimeRow>& rows, const char* what) {
    SheetTable table;
    table.columns = {{what, "", SheetColumn::Kind::Text}, {tr("From line"), "", SheetColumn::Kind::Text}};
    // Kinds that never take time would only be columns of noughts.
    std::vector<std::size_t> kinds;
    for (std::size_t k = 0; k < kTimeKinds; ++k) {
        const bool any =
            std::any_of(rows.begin(), rows.end(), [&](const TimeRow& r) { return r.share.seconds[k] > 0; });
        if (any) kinds.push_back(k);
    }
    for (std::size_t k : kinds) table.columns.push_back({tr(kKindWords[k]), "s", SheetColumn::Kind::Figure});
    table.columns.push_back({tr("together"), "s", SheetColumn::Kind::Figure});
    table.columns.push_back({tr("of all"), "%", SheetColumn::Kind::Figure});
    TimeShare sum;
    const auto add = [&](std::string name, std::string line, const TimeShare& time) {
        std::vector<std::string> row = {std::move(name), std::move(line)};
        for (std::size_t k : kinds) row.push_back(seconds(time.seconds[k]));
        row.push_back(seconds(time.total()));
        row.push_back(share(time.total(), trial.time.whole.total()));
        table.rows.push_back(std::move(row));
    };
    for (const TimeRow& row : rows) {
        add(shortened(row.name, 80), lineWord(trial.program, row.block), row.share);
        for (std::size_t k = 0; k < kTimeKinds; ++k) sum.seconds[k] += row.share.seconds[k];
    }
    table.strongRows.push_back(table.rows.size());
    add(tr("All"), "", sum);
    return table;
}

std::string wasteInWords(const TimeWaste& waste) {
    return waste.kind == TimeWaste::Kind::AirCut ? tr("at feed through air") : tr("retract longer than needed");
}

SheetTable wastesOf(const Trial& trial) {
    SheetTable table;
    table.columns = {{tr("What"), "", SheetColumn::Kind::Text},
                     {tr("Line"), "", SheetColumn::Kind::Text},
                     {tr("Times"), "", SheetColumn::Kind::Figure},
                     {tr("Way"), "mm", SheetColumn::Kind::Figure},
                     {tr("Could save"), "s", SheetColumn::Kind::Figure}};
    for (const TimeWaste& waste : trial.time.wastes) {
        table.rows.push_back({wasteInWords(waste), lineWord(trial.program, waste.block), std::to_string(waste.times),
                              figure(waste.lengthMm, 1), figure(waste.seconds, 2)});
    }
    return table;
}

SheetSection summary(const Trial& trial, bool known) {
    SheetSection section;
    section.heading = tr("Cycle time");
    const double cycle = trial.timeline.cycleTimeS;
    SheetFacts facts;
    facts.facts.push_back({tr("Cycle time"), durationInWords(cycle)});
    facts.facts.push_back({tr("At feed"), durationInWords(trial.timeline.feedTimeS)});
    facts.facts.push_back({tr("of that in metal"), durationInWords(trial.cuttingTimeS)});
    const double change = trial.setup.machine.times.changePartS;
    const std::optional<double> parts = partsPerHour(trial);
    if (parts) {
        facts.facts.push_back({tr("Changing the part, as the set-up gives it"), durationInWords(change)});
        facts.facts.push_back({tr("Parts per hour, without stops"), figure(*parts, 1)});
    }
    section.parts.emplace_back(std::move(facts));
    if (change <= 0) {
        section.parts.emplace_back(
            minor(tr("The set-up does not say how long it takes to change the part, so no parts per hour are given; "
                     "change_part_s in [times] says it.")));
    }
    if (!known) section.parts.emplace_back(plain(tr("The time was not broken down any further in this trial.")));
    return section;
}

}  // namespace

Sheet timeSheet(const Trial& trial, const SheetOptions& options) {
    Sheet sheet = sheetFrame(trial, tr("Cycle-time sheet"), options);
    sheet.sections.push_back(verdictSection(trial));
    const bool known = trial.time.whole.total() > 0;
    SheetSection first = summary(trial, known);
    if (known) first.parts.emplace_back(SheetFigure{barsOf(trial.time.whole, options.figureMm), ""});
    sheet.sections.push_back(std::move(first));
    if (!trial.time.tools.empty()) {
        sheet.sections.push_back({tr("By tool, in order of use"), {rowsOf(trial, trial.time.tools, tr("Tool"))}});
    }
    if (!trial.time.operations.empty()) {
        sheet.sections.push_back({tr("By operation"), {rowsOf(trial, trial.time.operations, tr("Operation"))}});
    }
    if (!trial.time.wastes.empty()) {
        sheet.sections.push_back({tr("What a change of the program could save"), {wastesOf(trial)}});
        sheet.sections.back().parts.emplace_back(minor(
            tr("Reckoned from the simulated cut alone. Whether the way is needed for other reasons is the setter's to "
               "decide.")));
    }
    SheetSection assumed = grantedSection(trial.time.assumed);
    if (!assumed.parts.empty()) sheet.sections.push_back(std::move(assumed));
    if (!trial.notChecked.empty()) {
        sheet.sections.push_back(
            {tr("Not checked"), {item(tr("What the trial did not look at stands on the findings report."))}});
    }
    return sheet;
}

}  // namespace firstoff
