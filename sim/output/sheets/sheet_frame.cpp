#include "sim/output/sheets/sheet_frame.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/sha256.h"
#include "sim/output/sheets/sheet_text.h"

namespace firstoff {

namespace {

constexpr std::size_t kLongestName = 120;

constexpr std::array<std::pair<std::string_view, SheetKind>, 5> kKinds = {{{"setup", SheetKind::Setup},
                                                                           {"inspection", SheetKind::Inspection},
                                                                           {"time", SheetKind::Time},
                                                                           {"findings", SheetKind::Findings},
                                                                           {"handout", SheetKind::Handout}}};

// Enough digits to tell one state of a file from another.
std::string sumOf(std::string_view text) {
    return "SHA-256 " + sha256(text).substr(0, 12);
}

std::string withoutBrackets(std::string_view comment) {
    if (!comment.empty() && (comment.front() == '(' || comment.front() == ';')) comment.remove_prefix(1);
    if (!comment.empty() && comment.back() == ')') comment.remove_suffix(1);
    const std::size_t from = comment.find_first_not_of(" \t");
    if (from == std::string_view::npos) return {};
    return plainText(comment.substr(from, comment.find_last_not_of(" \t") + 1 - from));
}

// End of the text before the first block that does something.
std::size_t endOfHead(const Program& program) {
    for (const Block& block : program.blocks) {
        if (block.kind == Block::Kind::Statement) return block.offset;
        const bool works =
            std::any_of(program.begin(block), program.end(block), [](const Word& word) { return word.letter != 'O'; });
        if (block.kind == Block::Kind::Words && works) return block.offset;
    }
    return program.text.size();
}

std::string numberOf(const Program& program) {
    for (const Block& block : program.blocks) {
        if (block.programNumber >= 0) return fmt::format("O{:04}", block.programNumber);
        if (block.wordCount > 0) break;
    }
    return {};
}

}  // namespace

std::optional<SheetKind> sheetKind(std::string_view word) {
    for (const auto& [known, kind] : kKinds) {
        if (word == known) return kind;
    }
    return std::nullopt;
}

std::string_view sheetKinds() {
    return "setup, inspection, time, findings, handout";
}

std::string fileName(const std::string& path) {
    return shortened(plainText(std::filesystem::path(path).filename().string()), kLongestName);
}

std::vector<std::string> headRemarks(const Program& program) {
    const std::size_t end = endOfHead(program);
    std::vector<std::string> remarks;
    for (const Comment& comment : program.comments) {
        if (comment.offset >= end) break;
        std::string text = withoutBrackets(std::string_view(program.text).substr(comment.offset, comment.length));
        if (!text.empty()) remarks.push_back(shortened(text, 300));
    }
    return remarks;
}

Sheet sheetFrame(const Trial& trial, std::string title, const SheetOptions& options) {
    Sheet sheet;
    sheet.title = std::move(title);
    sheet.subject = numberOf(trial.program);
    const std::vector<std::string> remarks = headRemarks(trial.program);
    if (!remarks.empty()) {
        sheet.subject += (sheet.subject.empty() ? "" : "  ") + shortened(remarks.front(), kLongestName);
    }
    const std::string program = fileName(trial.program.name);
    sheet.made.push_back({tr("Program"), program + ", " + sumOf(trial.program.text)});
    const std::string setup = fileName(trial.setup.name);
    sheet.made.push_back({tr("Set-up"), options.setupText.empty() ? setup : setup + ", " + sumOf(options.setupText)});
    if (!trial.setup.machine.name.empty()) {
        sheet.made.push_back({tr("Machine"), shortened(trial.setup.machine.name, kLongestName)});
    }
    if (!options.date.empty()) sheet.made.push_back({tr("Date"), shortened(options.date, 40)});
    sheet.running = sheet.title + " · " + program +
                    (sheet.subject.empty() ? "" : " · " + shortened(sheet.subject, 60)) + " · " +
                    sha256(trial.program.text).substr(0, 8);
    sheet.cautions.emplace_back(say("From a simulation. {}", standingCaution()));
    return sheet;
}

SheetParagraph plain(std::string text) {
    return {SheetParagraph::Kind::Plain, std::move(text)};
}
SheetParagraph item(std::string text) {
    return {SheetParagraph::Kind::Item, std::move(text)};
}
SheetParagraph caution(std::string text) {
    return {SheetParagraph::Kind::Caution, std::move(text)};
}
SheetParagraph minor(std::string text) {
    return {SheetParagraph::Kind::Minor, std::move(text)};
}

SheetSection verdictSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Verdict of the trial");
    section.parts.emplace_back(SheetParagraph{SheetParagraph::Kind::Verdict, verdictInWords(trial)});
    section.parts.emplace_back(plain(say("Findings: {}.", findingCounts(trial.findings))));
    if (trial.verdict == Verdict::Clear) return section;
    section.parts.emplace_back(
        caution(tr("Do not go by this sheet before the findings report has been read and every stop, warning and doubt "
                   "in it is settled. The first of them:")));
    constexpr std::size_t kMost = 3;
    std::size_t told = 0, all = 0;
    for (const Finding& finding : trial.findings) {
        if (finding.severity == Severity::Note && !finding.unproven) continue;
        ++all;
        if (told == kMost) continue;
        ++told;
        const std::string where = whereOf(finding, trial.program, fileName(trial.setup.name));
        section.parts.emplace_back(item((where.empty() ? "" : where + ": ") + shortened(finding.message, 300)));
    }
    if (all > told) section.parts.emplace_back(item(say("… and {} more.", all - told)));
    return section;
}

void addOnce(std::vector<std::string>& all, const std::vector<std::string>& some) {
    for (const std::string& text : some) {
        if (std::find(all.begin(), all.end(), text) == all.end()) all.push_back(text);
    }
}

SheetSection grantedSection(const std::vector<std::string>& all) {
    std::vector<std::string> once;
    addOnce(once, all);
    SheetSection section;
    section.heading = tr("Taken for granted");
    for (const std::string& text : once) section.parts.emplace_back(item(text));
    return section;
}

SheetSection notCheckedSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Not checked");
    for (const std::string& text : trial.notChecked) section.parts.emplace_back(item(text));
    return section;
}

std::string lineWord(const Program& program, BlockId block) {
    if (block == kNoBlock || block >= program.blocks.size()) return "–";
    const std::uint16_t part = program.partOf(block);
    const std::uint32_t line = program.lineOf(block);
    return part == 0 ? std::to_string(line) : say("{} of {}", line, program.parts[part].name);
}

Sheet makeSheet(const Trial& trial, SheetKind kind, const SheetOptions& options) {
    switch (kind) {
        case SheetKind::Setup:
            return setupSheet(trial, options);
        case SheetKind::Inspection:
            return inspectionSheet(trial, options);
        case SheetKind::Time:
            return timeSheet(trial, options);
        case SheetKind::Handout:
            return handoutSheet(trial, options);
        case SheetKind::Findings:
            break;
    }
    return findingsSheet(trial, options);
}

}  // namespace firstoff
