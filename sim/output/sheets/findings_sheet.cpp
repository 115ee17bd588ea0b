#include <algorithm>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

std::string markOf(const Finding& finding) {
    const char* word = finding.severity == Severity::Stop      ? tr("STOP")
                       : finding.severity == Severity::Warning ? tr("WARNING")
                                                               : tr("note");
    return finding.unproven ? say("NOT PROVEN, {}", word) : word;
}

// What of a long line stands about the column in question.
std::string quotedLine(std::string_view line, std::uint32_t column) {
    constexpr std::size_t kWidest = 160;
    const std::size_t from = line.find_first_not_of(" \t");
    if (from == std::string_view::npos) return {};
    line = line.substr(0, line.find_last_not_of(" \t") + 1);
    std::size_t first = column > kWidest * 3 / 4 ? std::min<std::size_t>(column - kWidest / 2, line.size()) : 0;
    while (first > 0 && first < line.size() && continuesPoint(line[first])) --first;
    return (first > 0 ? "…" : "") + shortened(plainText(line.substr(first)), kWidest);
}

SheetEntry entryOf(const Trial& trial, const Finding& finding, std::string_view setupText) {
    SheetEntry entry;
    entry.mark = markOf(finding);
    entry.grave = finding.severity != Severity::Note || finding.unproven;
    const std::string where = whereOf(finding, trial.program, fileName(trial.setup.name));
    entry.heading = fmt::format("{}{}[{}]", where, where.empty() ? "" : "  ", finding.code);
    const bool inSetup = finding.span.file == SourceSpan::File::Setup;
    if (finding.span.line > 0) {
        const std::string_view source = inSetup ? setupText : trial.program.textOfPart(finding.span.part);
        const std::string quote = quotedLine(lineOf(source, finding.span.line), finding.span.column);
        if (!quote.empty()) entry.text.push_back({SheetParagraph::Kind::Quote, quote});
    }
    entry.text.push_back(plain(finding.message));
    if (!finding.remedy.empty()) entry.text.push_back(plain(fmt::format("{} {}", tr("Do:"), finding.remedy)));
    return entry;
}

void addSection(Sheet& sheet, const Trial& trial, std::string_view setupText, const char* heading, auto belongs) {
    SheetSection section;
    section.heading = heading;
    for (const Finding& finding : trial.findings) {
        if (belongs(finding)) section.parts.emplace_back(entryOf(trial, finding, setupText));
    }
    if (!section.parts.empty()) sheet.sections.push_back(std::move(section));
}

}  // namespace

Sheet findingsSheet(const Trial& trial, const SheetOptions& options) {
    Sheet sheet = sheetFrame(trial, tr("Findings report"), options);
    SheetSection verdict;
    verdict.heading = tr("Verdict");
    verdict.parts.emplace_back(SheetParagraph{SheetParagraph::Kind::Verdict, verdictInWords(trial)});
    verdict.parts.emplace_back(SheetFacts{{{tr("Findings"), findingCounts(trial.findings)},
                                           {tr("Cycle time"), durationInWords(trial.timeline.cycleTimeS)},
                                           {tr("Moves"), std::to_string(trial.toolpath.moves.size())}}});
    sheet.sections.push_back(std::move(verdict));
    addSection(sheet, trial, options.setupText, tr("Stops: it would hit something, or the control would stop"),
               [](const Finding& f) { return f.severity == Severity::Stop; });
    addSection(sheet, trial, options.setupText, tr("Warnings: it would spoil the part, or is a known danger"),
               [](const Finding& f) { return f.severity == Severity::Warning; });
    addSection(sheet, trial, options.setupText, tr("Not understood or not modelled: nothing is proven about it"),
               [](const Finding& f) { return f.severity == Severity::Note && f.unproven; });
    addSection(sheet, trial, options.setupText, tr("Notes: worth knowing"),
               [](const Finding& f) { return f.severity == Severity::Note && !f.unproven; });
    SheetSection rest = notCheckedSection(trial);
    if (!rest.parts.empty()) sheet.sections.push_back(std::move(rest));
    return sheet;
}

}  // namespace firstoff
