#include <cmath>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/inspection/correction_words.h"
#include "sim/output/gauge_report.h"
#include "sim/output/sheets/inspection_sketch.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/tables.h"

namespace firstoff {

namespace {

// Angles are reckoned in rad and read in degrees.
std::string valueOf(const GaugedDimension& d, double value) {
    if (d.wanted.kind == WantedDimension::Kind::Taper) return figure(degrees(value), 3) + "°";
    return figure(value, 3);
}

std::string stateOf(const GaugedDimension& d) {
    switch (d.state) {
        case GaugedDimension::State::Within:
            return tr("within");
        case GaugedDimension::State::TooSmall:
            return say("too small by {}", valueOf(d, d.least - d.expected()));
        case GaugedDimension::State::TooLarge:
            return say("too large by {}", valueOf(d, d.expected() - d.most));
        case GaugedDimension::State::NotFound:
            break;
    }
    return tr("not found");
}

SheetTable dimensionTable(const Trial& trial) {
    SheetTable table;
    table.columns = {
        {tr("No."), "", SheetColumn::Kind::Figure},         {tr("Dimension"), "", SheetColumn::Kind::Text},
        {tr("Nominal"), "mm", SheetColumn::Kind::Figure},   {tr("Least"), "mm", SheetColumn::Kind::Figure},
        {tr("Most"), "mm", SheetColumn::Kind::Figure},      {tr("Simulated"), "mm", SheetColumn::Kind::Figure},
        {tr("Bending"), "mm", SheetColumn::Kind::Figure},   {tr("Expected"), "mm", SheetColumn::Kind::Figure},
        {tr("in its limits"), "", SheetColumn::Kind::Text}, {tr("1st part"), "", SheetColumn::Kind::Blank},
        {tr("2nd"), "", SheetColumn::Kind::Blank},          {tr("3rd"), "", SheetColumn::Kind::Blank}};
    for (const GaugedDimension& d : trial.gauged.dimensions) {
        const bool found = d.state != GaugedDimension::State::NotFound;
        if (d.state != GaugedDimension::State::Within) table.strongRows.push_back(table.rows.size());
        const auto limit = [&](double value) { return d.limited ? valueOf(d, value) : "–"; };
        table.rows.push_back({std::to_string(table.rows.size() + 1), shortened(d.name, 60), valueOf(d, d.wanted.size),
                              limit(d.least), limit(d.most), found ? valueOf(d, d.measured) : "–",
                              found ? bendingInWords(d) : "–", found ? valueOf(d, d.expected()) : "–", stateOf(d), "",
                              "", ""});
    }
    return table;
}

// One line for each entry of the offset page, and why some dimensions hang on none.
void addCorrections(const Trial& trial, SheetSection& section) {
    const GaugedPart& part = trial.gauged;
    if (!part.corrections.empty())
        section.parts.emplace_back(plain(tr("Key in, X on diameter, once for each offset and axis:")));
    for (const OffsetCorrection& c : part.corrections) {
        std::string text = correctionInWords(part, c);
        if (const std::string also = alsoMovedInWords(trial.gauged, c, sectionDatum(trial)); !also.empty())
            text += " " + also;
        section.parts.emplace_back(item(text));
    }
    for (std::size_t i = 0; i < part.dimensions.size(); ++i) {
        const GaugedDimension& d = part.dimensions[i];
        const bool out = d.state != GaugedDimension::State::Within;
        for (const std::string& why : {d.trouble, out ? d.noCorrection : std::string(), endsInWords(trial, d)}) {
            if (!why.empty()) section.parts.emplace_back(item(say("No. {}: {}", i + 1, why)));
        }
        if (part.bendingKnown && !d.bendingNote.empty()) {
            section.parts.emplace_back(item(say("No. {}: bending not counted: {}", i + 1, d.bendingNote)));
        }
    }
}

SheetTable deviationTable(const Trial& trial) {
    SheetTable table;
    table.columns = {{tr("From X"), "Ø", SheetColumn::Kind::Figure}, {"Z", "", SheetColumn::Kind::Figure},
                     {tr("to X"), "Ø", SheetColumn::Kind::Figure},   {"Z", "", SheetColumn::Kind::Figure},
                     {tr("Metal"), "", SheetColumn::Kind::Text},     {tr("at most"), "mm", SheetColumn::Kind::Figure},
                     {tr("Line"), "", SheetColumn::Kind::Text}};
    const double datum = sectionDatum(trial).z;
    for (const ContourDeviation& d : trial.gauged.deviations) {
        table.rows.push_back({figure(2 * d.from.r, 3), figure(d.from.z - datum, 3), figure(2 * d.to.r, 3),
                              figure(d.to.z - datum, 3), d.amountMm > 0 ? tr("left standing") : tr("missing"),
                              figure(std::abs(d.amountMm), 3), lineWord(trial.program, d.block)});
    }
    return table;
}

SheetSection partSection(const Trial& trial, const SheetOptions& options) {
    SheetSection section;
    section.heading = tr("The part");
    for (Sketch& sketch : inspectionSketches(trial, options.figureMm)) {
        section.parts.emplace_back(SheetFigure{std::move(sketch), ""});
    }
    if (section.parts.empty()) {
        section.parts.emplace_back(plain(tr("There is no part to draw: the set-up gives no usable blank.")));
    } else {
        const int piece = inspectedPiece(trial);
        section.parts.emplace_back(
            minor(piece == 0 ? std::string(tr("Drawn from the simulated part, what is held at the end: seen from "
                                              "outside above the axis (threads as their crests), cut below it."))
                             : say("Drawn from the simulated part, piece {} of those cut off: seen from outside above "
                                   "the axis (threads as their crests), cut below it.",
                                   piece)));
    }
    return section;
}

}  // namespace

Sheet inspectionSheet(const Trial& trial, const SheetOptions& options) {
    Sheet sheet = sheetFrame(trial, tr("First-off inspection sheet"), options);
    sheet.cautions.insert(sheet.cautions.begin(), tr("Simulated sizes are those of sharp tools that sit as the set-up "
                                                     "says. They stand in for no gauge: measure the "
                                                     "first part."));
    sheet.sections.push_back(verdictSection(trial));
    sheet.sections.push_back(partSection(trial, options));
    SheetSection dimensions;
    dimensions.heading = tr("Dimensions");
    if (trial.gauged.dimensions.empty()) {
        dimensions.parts.emplace_back(plain(
            tr("The set-up gives no dimensions of the wanted part, so there is nothing to compare. Give the drawing or "
               "a list of dimensions with their limits there; assets/set-up-keys.md says how.")));
    } else {
        dimensions.parts.emplace_back(dimensionTable(trial));
        addCorrections(trial, dimensions);
        dimensions.parts.emplace_back(minor(
            tr("Simulated: by the path of the tool. Bending: what part and bar give way, an estimate. Expected: both "
               "together; the limits are held against that. After gauging a real part key in what was measured "
               "instead.")));
    }
    sheet.sections.push_back(std::move(dimensions));
    if (!trial.gauged.deviations.empty()) {
        sheet.sections.push_back({tr("Against the drawn outline"), {deviationTable(trial)}});
        sheet.sections.back().parts.emplace_back(
            minor(say("Square to the outline; up to {} mm is let pass.", figure(trial.gauged.deviationBandMm, 3))));
    }
    SheetSection finish = finishSection(trial);
    if (!finish.parts.empty()) sheet.sections.push_back(std::move(finish));
    SheetSection assumed = grantedSection(trial.gauged.assumed);
    if (!assumed.parts.empty()) sheet.sections.push_back(std::move(assumed));
    SheetSection signing;
    signing.heading = tr("Gauged and released");
    signing.parts.emplace_back(
        SheetSigning{{tr("Gauges used, with their numbers"), tr("Gauged by, date"), tr("Released by, date")}});
    sheet.sections.push_back(std::move(signing));
    return sheet;
}

}  // namespace firstoff
