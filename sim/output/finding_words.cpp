#include "sim/output/finding_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

// Length of the UTF-8 character that starts `bytes`, 0 if none does: no longer spelling than needed, no half of a pair,
// nothing past U+10FFFF (RFC 3629, section 4).
std::size_t characterLength(std::string_view bytes) {
    const auto lead = static_cast<unsigned char>(bytes.front());
    const std::size_t length = lead < 0x80                   ? 1
                               : lead >= 0xC2 && lead < 0xE0 ? 2
                               : lead >= 0xE0 && lead < 0xF0 ? 3
                               : lead >= 0xF0 && lead < 0xF5 ? 4
                                                             : 0;
    if (length == 0 || length > bytes.size()) return 0;
    for (std::size_t i = 1; i < length; ++i) {
        if (!continuesPoint(bytes[i])) return 0;
    }
    const auto second = static_cast<unsigned char>(length > 1 ? bytes[1] : 0);
    const bool wrong = (lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F) ||
                       (lead == 0xF0 && second < 0x90) || (lead == 0xF4 && second > 0x8F);
    return wrong ? 0 : length;
}

// Turns the direction of the text that follows it, so that it would read as something else: U+202A to U+202E, U+2066 to
// U+2069.
bool turnsText(std::string_view character) {
    if (character.size() != 3 || character.substr(0, 2) < "\xE2\x80" || character.substr(0, 2) > "\xE2\x81")
        return false;
    const auto last = static_cast<unsigned char>(character[2]);
    return character[1] == '\x80' ? last >= 0xAA && last <= 0xAE : last >= 0xA6 && last <= 0xA9;
}

}  // namespace

bool continuesPoint(char c) {
    return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u;
}

std::string plainText(std::string_view bytes) {
    std::string result;
    while (!bytes.empty()) {
        const std::size_t length = characterLength(bytes);
        const auto lead = static_cast<unsigned char>(bytes.front());
        const bool control =
            lead < 0x20 || lead == 0x7f || (lead == 0xC2 && length == 2 && static_cast<unsigned char>(bytes[1]) < 0xA0);
        if (length == 0 || control || turnsText(bytes.substr(0, length))) {
            result.push_back(lead == '\t' ? ' ' : '?');
        } else {
            result += bytes.substr(0, length);
        }
        bytes.remove_prefix(std::max<std::size_t>(1, length));
    }
    return result;
}

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

std::string whereOf(const Finding& finding, const Program& program, std::string_view setupName) {
    std::string where;
    if (finding.span.file == SourceSpan::File::Setup) where = say("set-up {}", plainText(setupName));
    if (finding.span.part > 0) where = std::string(plainText(program.parts[finding.span.part].name));
    if (finding.span.line > 0) {
        where += where.empty() ? "" : ", ";
        where += finding.span.length > 0 || finding.span.column > 1
                     ? say("line {} column {}", finding.span.line, finding.span.column)
                     : say("line {}", finding.span.line);
    }
    if (finding.timeS) {
        where += where.empty() ? "" : ", ";
        where += say("at {}", durationInWords(*finding.timeS));
    }
    return where;
}

std::string notReckonedInWords(const Trial& trial) {
    if (!trial.stock || trial.loads.runs.empty()) return {};
    if (!trial.loads.forcesKnown) {
        return trial.setup.material.name.empty() ? tr("loads, grip and bending: no material")
                                                 : tr("loads, grip and bending: no figures of the material");
    }
    const SpindleDrive& drive = trial.setup.machine.spindle;
    std::string words;
    const auto add = [&](bool lacks, const char* what) {
        if (lacks) words += (words.empty() ? "" : ", ") + std::string(what);
    };
    add(!trial.loads.notReckoned.empty(), tr("loads of some cuts"));
    add(drive.curve.empty() && drive.powerKw <= 0, tr("what the spindle gives"));
    add(!trial.holding.missing.empty(), tr("grip"));
    add(!trial.bending.missing.empty(), tr("bending"));
    return words;
}

std::string verdictInWords(const Trial& trial) {
    std::string words;
    switch (trial.verdict) {
        case Verdict::Clear:
            words = trial.findings.empty()
                        ? tr("CLEAR: every block was understood and carried out, and nothing was found")
                        : tr("CLEAR: every block was understood and carried out; nothing was found but what is noted");
            break;
        case Verdict::Problems:
            words = tr("PROBLEMS: as it stands, something would hit, scrap the part or stop the machine");
            break;
        case Verdict::NotProven:
            words = tr("NOT PROVEN: something was not understood or is not modelled");
            break;
    }
    const std::string lacking = notReckonedInWords(trial);
    if (!lacking.empty()) words += say(" (not reckoned: {})", lacking);
    return words + ".";
}

std::string findingCounts(const std::vector<Finding>& findings) {
    const auto number = [&](Severity severity) {
        return std::count_if(findings.begin(), findings.end(),
                             [&](const Finding& f) { return f.severity == severity; });
    };
    const auto stops = number(Severity::Stop), warnings = number(Severity::Warning), notes = number(Severity::Note);
    return fmt::format("{}, {}, {}", stops == 1 ? say("{} stop", stops) : say("{} stops", stops),
                       warnings == 1 ? say("{} warning", warnings) : say("{} warnings", warnings),
                       notes == 1 ? say("{} note", notes) : say("{} notes", notes));
}

std::string_view standingCaution() {
    return tr(
        "This does not replace a dry run, single block and a hand on the feed hold. Workholding, speed limits, guards "
        "and local safety rules are decided by the machine's manual and by licensed or authorised people.");
}

}  // namespace firstoff
