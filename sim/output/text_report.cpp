#include "sim/output/text_report.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "sim/output/clearance_report.h"
#include "sim/output/load_report.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostFindings = 200;
constexpr std::size_t kWidest = 100;  // bytes of a quoted line

std::string_view lineOf(std::string_view text, std::uint32_t line) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    for (std::uint32_t i = 1; i < line; ++i) {
        const std::size_t end = text.find('\n');
        if (end == std::string_view::npos) return {};
        text.remove_prefix(end + 1);
    }
    std::string_view result = text.substr(0, text.find('\n'));
    if (!result.empty() && result.back() == '\r') result.remove_suffix(1);
    return result;
}

bool continuesPoint(char c) {
    return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u;
}

// Length of the UTF-8 character that starts `bytes`, 0 if none does.
std::size_t characterLength(std::string_view bytes) {
    const auto lead = static_cast<unsigned char>(bytes.front());
    const std::size_t length = lead < 0x80               ? 1
                               : (lead & 0xE0u) == 0xC0u ? 2
                               : (lead & 0xF0u) == 0xE0u ? 3
                               : (lead & 0xF8u) == 0xF0u ? 4
                                                         : 0;
    if (length == 0 || length > bytes.size()) return 0;
    for (std::size_t i = 1; i < length; ++i) {
        if (!continuesPoint(bytes[i])) return 0;
    }
    return length;
}

// Control characters, of one byte or of two (C2 80 to C2 9F), must not reach a terminal; nor must bytes that are no
// text.
std::string shown(std::string_view bytes) {
    std::string result;
    while (!bytes.empty()) {
        const std::size_t length = characterLength(bytes);
        const auto lead = static_cast<unsigned char>(bytes.front());
        const bool control =
            lead < 0x20 || lead == 0x7f || (lead == 0xC2 && length == 2 && static_cast<unsigned char>(bytes[1]) < 0xA0);
        if (length == 0 || control) {
            result.push_back(lead == '\t' ? ' ' : '?');
        } else {
            result += bytes.substr(0, length);
        }
        bytes.remove_prefix(std::max<std::size_t>(1, length));
    }
    return result;
}

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
    const std::size_t lead = columnsOf(shown(line.substr(first, begin - first)));
    const std::size_t marked =
        std::max<std::size_t>(1, columnsOf(shown(line.substr(begin, std::min(length, last - begin)))));
    return fmt::format("      {}{}{}\n      {}^{}\n", first > 0 ? "…" : "", shown(window),
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

std::string whereOf(const Finding& finding, const Program& program, std::string_view setupName) {
    std::string where;
    if (finding.span.file == SourceSpan::File::Setup) where = fmt::format("set-up {}", shown(setupName));
    if (finding.span.part > 0) where = std::string(shown(program.parts[finding.span.part].name));
    if (finding.span.line > 0) {
        where += where.empty() ? "" : ", ";
        where += finding.span.length > 0 || finding.span.column > 1
                     ? fmt::format("line {} column {}", finding.span.line, finding.span.column)
                     : fmt::format("line {}", finding.span.line);
    }
    if (finding.timeS) where += fmt::format("{}at {}", where.empty() ? "" : ", ", durationInWords(*finding.timeS));
    return where;
}

void appendFinding(std::string& text, const Finding& finding, const Program& program, std::string_view setupName,
                   std::string_view setupText) {
    const bool inSetup = finding.span.file == SourceSpan::File::Setup;
    text += fmt::format("\n  {}{}  {}  [{}]\n", finding.unproven ? "not proven, " : "", name(finding.severity),
                        whereOf(finding, program, setupName), finding.code);
    if (finding.span.line > 0) {
        const std::string_view source = inSetup ? setupText : program.textOfPart(finding.span.part);
        text += quoted(lineOf(source, finding.span.line), finding.span);
    }
    appendWrapped(text, "    ", "    ", shown(finding.message));
    if (!finding.remedy.empty()) appendWrapped(text, "        ", "    Do: ", shown(finding.remedy));
}

const char* verdictInWords(const Trial& trial) {
    switch (trial.verdict) {
        case Verdict::Clear:
            if (!trial.findings.empty()) {
                return "CLEAR: every block was understood and carried out; nothing was found but what is noted.";
            }
            return "CLEAR: every block was understood and carried out, and nothing was found.";
        case Verdict::Problems:
            return "PROBLEMS: as it stands, something would hit, scrap the part or stop the machine.";
        case Verdict::NotProven:
            return "NOT PROVEN: something was not understood or is not modelled.";
    }
    return "";
}

std::string counts(const std::vector<Finding>& findings) {
    const auto number = [&](Severity severity) {
        return std::count_if(findings.begin(), findings.end(),
                             [&](const Finding& f) { return f.severity == severity; });
    };
    const auto plural = [](long n, const char* word) { return fmt::format("{} {}{}", n, word, n == 1 ? "" : "s"); };
    return fmt::format("{}, {}, {}", plural(number(Severity::Stop), "stop"),
                       plural(number(Severity::Warning), "warning"), plural(number(Severity::Note), "note"));
}

}  // namespace

std::string_view standingCaution() {
    return "This does not replace a dry run, single block and a hand on the feed hold. Workholding, speed limits, "
           "guards and "
           "local safety rules are decided by the machine's manual and by licensed or authorised people.";
}

std::string textFindings(const std::vector<Finding>& findings, const Program& program, std::string_view setupName,
                         std::string_view setupText) {
    std::string text;
    const std::size_t count = std::min(findings.size(), kMostFindings);
    for (std::size_t i = 0; i < count; ++i) appendFinding(text, findings[i], program, setupName, setupText);
    if (findings.size() > count) {
        text += fmt::format("\n  … and {} more; --json writes them all.\n", findings.size() - count);
    }
    return text;
}

std::string textReport(const Trial& trial, std::string_view setupText) {
    std::string text = fmt::format("{} on {}\n", shown(trial.program.name), shown(trial.setup.name));
    text += verdictInWords(trial);
    text += '\n';
    text += textFindings(trial.findings, trial.program, trial.setup.name, setupText);
    text += fmt::format("\n  findings      {}\n", counts(trial.findings));
    text += fmt::format("  cycle time    {}\n", durationInWords(trial.timeline.cycleTimeS));
    text += fmt::format("  at feed       {}, of that in metal {}\n", durationInWords(trial.timeline.feedTimeS),
                        durationInWords(trial.cuttingTimeS));
    text += fmt::format("  billet        {:.2f} cm³, {:.2f} cm³ of it cut away\n", trial.stockVolumeMm3 / 1000,
                        trial.removedVolumeMm3 / 1000);
    text += fmt::format("  moves         {}\n", trial.toolpath.moves.size());
    text += clearanceSummary(trial);
    text += loadSummary(trial);
    text += '\n';
    if (!trial.notChecked.empty()) {
        text += "  Not checked:\n";
        for (const std::string& entry : trial.notChecked) appendWrapped(text, "    ", "  - ", shown(entry));
        text += '\n';
    }
    appendWrapped(text, "  ", "  ", standingCaution());
    return text;
}

}  // namespace firstoff
