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
constexpr std::size_t kLabel = 14;    // columns of the labels before figures

std::size_t columnsOf(std::string_view bytes) {
    return static_cast<std::size_t>(
        std::count_if(bytes.begin(), bytes.end(), [](char c) { return !continuesPoint(c); }));
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
    text += fmt::format("\n  {}{}  {}  [{}]\n", finding.unproven ? tr("not proven, ") : "", name(finding.severity),
                        whereOf(finding, program, setupName), finding.code);
    if (finding.span.line > 0) {
        const std::string_view source = inSetup ? setupText : program.textOfPart(finding.span.part);
        text += quoted(lineOf(source, finding.span.line), finding.span);
    }
    appendWrapped(text, "    ", "    ", plainText(finding.message));
    if (!finding.remedy.empty()) appendWrapped(text, "        ", "    Do: ", plainText(finding.remedy));
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
    std::string text = fmt::format("{} on {}\n", plainText(trial.program.name), plainText(trial.setup.name));
    text += verdictInWords(trial);
    text += '\n';
    text += textFindings(trial.findings, trial.program, trial.setup.name, setupText);
    text += fmt::format("\n  findings      {}\n", findingCounts(trial.findings));
    text += say("  cycle time    {}\n", durationInWords(trial.timeline.cycleTimeS));
    text += timeSummary(trial);
    text += say("  at feed       {}, of that in metal {}\n", durationInWords(trial.timeline.feedTimeS),
                durationInWords(trial.cuttingTimeS));
    text += say("  billet        {:.2f} cm³, {:.2f} cm³ of it cut away\n", trial.stockVolumeMm3 / 1000,
                trial.removedVolumeMm3 / 1000);
    text += fmt::format("  moves         {}\n", trial.toolpath.moves.size());
    text += gaugeSummary(trial);
    text += clearanceSummary(trial);
    text += loadSummary(trial);
    for (const std::string& line : holdingLines(trial)) {
        appendWrapped(text, std::string(2 + kLabel, ' '), "  " + line.substr(0, kLabel),
                      plainText(std::string_view(line).substr(kLabel)));
    }
    text += '\n';
    appendList(text, tr("  Not checked:\n"), trial.notChecked);
    appendList(text, tr("  Cycle time, taken:\n"), trial.time.assumed);
    appendWrapped(text, "  ", "  ", standingCaution());
    return text;
}

}  // namespace firstoff
