#include "sim/output/text_report.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/clearance_report.h"
#include "sim/output/finding_words.h"
#include "sim/output/gauge_report.h"
#include "sim/output/holding_report.h"
#include "sim/output/load_report.h"
#include "sim/output/table_figures.h"
#include "sim/output/time_report.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostFindings = 200;
constexpr std::size_t kWidest = 100;  // bytes of a quoted line

std::size_t columnsOf(std::string_view bytes) {
    return static_cast<std::size_t>(
        std::count_if(bytes.begin(), bytes.end(), [](char c) { return !continuesPoint(c); }));
}

// How many bytes the first columns of a text take.
std::size_t bytesOf(std::string_view text, std::size_t columns) {
    std::size_t bytes = 0;
    while (bytes < text.size() && (columns > 0 || continuesPoint(text[bytes]))) {
        columns -= continuesPoint(text[bytes]) ? 0 : 1;
        ++bytes;
    }
    return bytes;
}

// The line with a caret line beneath; a span without length means the whole block.
std::string quoted(std::string_view line, const SourceSpan& span) {
    if (line.find_first_not_of(" \t") == std::string_view::npos) return {};
    std::size_t begin = std::min<std::size_t>(span.column > 0 ? span.column - 1 : 0, line.size());
    std::size_t length = span.length;
    if (length == 0 && span.column <= 1) {
        begin = line.find_first_not_of(" \t");
        length = line.find_last_not_of(" \t") + 1 - begin;
    }
    // A window around the place, moved off the middle of a character.
    std::size_t first = begin > kWidest * 3 / 4 ? begin - kWidest / 2 : 0;
    while (first > 0 && continuesPoint(line[first])) --first;
    std::size_t last = std::min(line.size(), first + kWidest);
    while (last < line.size() && continuesPoint(line[last])) ++last;
    const std::string_view window = line.substr(first, last - first);
    const std::size_t lead = columnsOf(plainText(line.substr(first, begin - first)));
    const std::size_t marked =
        std::max<std::size_t>(1, columnsOf(plainText(line.substr(begin, std::min(length, last - begin)))));
    return fmt::format("      {}{}{}\n      {}^{}\n", first > 0 ? "…" : "", plainText(window),
                       last < line.size() ? "…" : "", std::string(lead + (first > 0 ? 1 : 0), ' '),
                       std::string(marked - 1, '~'));
}

void appendWrapped(std::string& text, std::string_view indent, std::string_view first, std::string_view words) {
    constexpr std::size_t kWidth = 96;
    text += first;
    std::size_t column = indent.size();
    bool atStart = true;
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        const std::string_view word = words.substr(0, end);
        words.remove_prefix(std::min(end + 1, words.size()));
        const std::size_t width = columnsOf(word);
        if (!atStart && column + 1 + width > kWidth) {
            text += '\n';
            text += indent;
            column = indent.size();
            atStart = true;
        }
        if (!atStart) {
            text += ' ';
            ++column;
        }
        text += word;
        column += width;
        atStart = false;
    }
    text += '\n';
}

void appendList(std::string& text, const char* heading, const std::vector<std::string>& entries) {
    if (entries.empty()) return;
    text += heading;
    for (const std::string& entry : entries) appendWrapped(text, "    ", "  - ", plainText(entry));
    text += '\n';
}

void appendFinding(std::string& text, const Finding& finding, const Program& program, std::string_view setupName,
                   std::string_view setupText) {
    const bool inSetup = finding.span.file == SourceSpan::File::Setup;
    text += fmt::format("\n  {}{}  {}  [{}]\n", finding.unproven ? tr("not proven, ") : "", tr(name(finding.severity)),
                        whereOf(finding, program, setupName), finding.code);
    if (finding.span.line > 0) {
        const std::string_view source = inSetup ? setupText : program.textOfPart(finding.span.part);
        text += quoted(lineOf(source, finding.span.line), finding.span);
    }
    appendWrapped(text, "    ", "    ", plainText(finding.message));
    if (!finding.remedy.empty())
        appendWrapped(text, "        ", fmt::format("    {} ", tr("Do:")), plainText(finding.remedy));
}

}  // namespace

std::string textFindings(const std::vector<Finding>& findings, const Program& program, std::string_view setupName,
                         std::string_view setupText) {
    std::string text;
    const std::size_t count = std::min(findings.size(), kMostFindings);
    for (std::size_t i = 0; i < count; ++i) appendFinding(text, findings[i], program, setupName, setupText);
    if (findings.size() > count) {
        text += say("\n  … and {} more; --json writes them all.\n", findings.size() - count);
    }
    return text;
}

std::string textReport(const Trial& trial, std::string_view setupText) {
    std::string text = say("{} on {}\n", plainText(trial.program.name), plainText(trial.setup.name));
    text += verdictInWords(trial);
    text += '\n';
    text += textFindings(trial.findings, trial.program, trial.setup.name, setupText);
    text += "\n  " + reportLabel(tr("findings")) + findingCounts(trial.findings) + "\n";
    text += "  " + reportLabel(tr("cycle time")) + durationInWords(trial.timeline.cycleTimeS) + "\n";
    text += timeSummary(trial);
    text += "  " + reportLabel(tr("at feed")) +
            say("{}, of that in metal {}\n", durationInWords(trial.timeline.feedTimeS),
                durationInWords(trial.cuttingTimeS));
    text += "  " + reportLabel(tr("billet")) +
            say("{:.2f} cm³, {:.2f} cm³ of it cut away\n", trial.stockVolumeMm3 / 1000, trial.removedVolumeMm3 / 1000);
    text += "  " + reportLabel(tr("moves")) + std::to_string(trial.toolpath.moves.size()) + "\n";
    text += gaugeSummary(trial);
    text += clearanceSummary(trial);
    text += loadSummary(trial);
    for (const std::string& line : holdingLines(trial)) {
        const std::size_t label = bytesOf(line, kReportLabel);
        appendWrapped(text, std::string(2 + kReportLabel, ' '), "  " + line.substr(0, label),
                      plainText(std::string_view(line).substr(label)));
    }
    text += '\n';
    appendList(text, tr("  Not checked:\n"), trial.notChecked);
    appendList(text, tr("  Cycle time, taken:\n"), trial.time.assumed);
    appendWrapped(text, "  ", "  ", standingCaution());
    return text;
}

}  // namespace firstoff
