// The finish that the feed leaves on every surface of the part.
#include <cmath>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/sheets/inspection_sketch.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/tables.h"
#include "sim/trial/finish.h"

namespace firstoff {

namespace {

constexpr double kMicrometres = 1000;  // in a mm

// A straight edge leaves next to nothing, which is not nothing.
std::string micrometres(double mm) {
    constexpr double kToldMicrometres = 0.01;
    return kMicrometres * mm < kToldMicrometres ? "< 0.01" : figure(kMicrometres * mm, 2);
}

std::string feedOf(const FeedMarks& marks) {
    constexpr double kSameMm = 5e-4;  // as it is written
    if (marks.feedMax - marks.feedMin < kSameMm) return shortFigure(marks.feedMax, 3);
    return say("{} to {}", shortFigure(marks.feedMin, 3), shortFigure(marks.feedMax, 3));
}

std::string toolsOf(const FinishReport& report) {
    std::string text;
    for (const int station : report.stations) text += (text.empty() ? "T" : ", T") + std::to_string(station);
    return text;
}

// What the figures were taken over: sections of one cut-off each, or the profile as it is.
std::string takenOver(const Roughness& roughness) {
    if (!roughness.filtered()) return tr("as it is");
    return fmt::format("{} × {}", roughness.sections, shortFigure(roughness.cutOff, 2));
}

const char* sideOf(SurfaceSpan::Side side) {
    switch (side) {
        case SurfaceSpan::Side::Outer:
            return tr("outside");
        case SurfaceSpan::Side::Inner:
            return tr("bore");
        case SurfaceSpan::Side::FrontFace:
        case SurfaceSpan::Side::BackFace:
            break;
    }
    return tr("face");
}

struct Ends {
    Point from, to;
};

Ends endsOf(const FinishReport& report) {
    const SurfaceSpan& span = report.span;
    if (span.isFace()) return {{span.z, span.from}, {span.z, span.to}};
    return {{span.from, report.rFrom}, {span.to, report.rTo}};
}

std::vector<std::string> rowOf(const Trial& trial, const FinishReport& report) {
    const double datum = sectionDatum(trial).z;
    const Ends ends = endsOf(report);
    std::vector<std::string> row{sideOf(report.span.side),       figure(2 * ends.from.r, 2),
                                 figure(ends.from.z - datum, 2), figure(2 * ends.to.r, 2),
                                 figure(ends.to.z - datum, 2),   lineWord(trial.program, report.leftBy)};
    if (!report.trouble.empty()) {
        for (int i = 0; i < 7; ++i) row.emplace_back(i == 0 || i == 6 ? "" : "–");
        return row;
    }
    const Roughness& r = report.roughness;
    row.push_back(toolsOf(report));
    row.push_back(feedOf(report.marks));
    row.push_back(report.marks.noseRadius > 0 ? shortFigure(report.marks.noseRadius, 2) : "–");
    row.push_back(report.theory ? micrometres(report.theory->rtParabola) : "–");
    row.push_back(report.noMarks ? "–" : micrometres(r.rz));
    row.push_back(report.noMarks ? "–" : micrometres(r.ra));
    row.push_back(report.noMarks ? "" : takenOver(r));
    return row;
}

}  // namespace

SheetSection finishSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Finish that the feed leaves");
    SheetTable table;
    table.columns = {{tr("Surface"), "", SheetColumn::Kind::Text},
                     {tr("from X"), "Ø", SheetColumn::Kind::Figure},
                     {"Z", "", SheetColumn::Kind::Figure},
                     {tr("to X"), "Ø", SheetColumn::Kind::Figure},
                     {"Z", "", SheetColumn::Kind::Figure},
                     {tr("Line"), "", SheetColumn::Kind::Text},
                     {tr("Tool"), "", SheetColumn::Kind::Text},
                     {tr("Feed"), tr("mm/rev"), SheetColumn::Kind::Figure},
                     {tr("Nose R"), "mm", SheetColumn::Kind::Figure},
                     {"f²/8R", "µm", SheetColumn::Kind::Figure},
                     {"Rz", "µm", SheetColumn::Kind::Figure},
                     {"Ra", "µm", SheetColumn::Kind::Figure},
                     {tr("taken over"), "mm", SheetColumn::Kind::Text}};
    const int piece = inspectedPiece(trial);
    bool asItIs = false;
    std::vector<std::string> troubles;
    for (const FinishReport& report : surfaceFinishes(trial)) {
        if (report.piece != piece) continue;
        asItIs = asItIs || (report.trouble.empty() && !report.noMarks && !report.roughness.filtered());
        if (report.noMarks && !report.notes.empty()) addOnce(troubles, {report.notes.back()});
        if (!report.trouble.empty()) addOnce(troubles, {report.trouble});
        table.rows.push_back(rowOf(trial, report));
    }
    if (table.rows.empty()) return section;
    section.parts.emplace_back(std::move(table));
    std::string words = tr(
        "From the shape of the edge and the feed alone: wear, vibration, built-up edge and tearing are not in it, so "
        "that a real surface is rougher. f²/8R is what a nose of radius R leaves while it alone cuts.");
    if (asItIs) words += tr(" As it is: too short for a cut-off; Rz and Ra are then Pz and Pa.");
    section.parts.emplace_back(minor(words));
    for (const std::string& trouble : troubles) section.parts.emplace_back(item(say("Without figures: {}", trouble)));
    return section;
}

}  // namespace firstoff
