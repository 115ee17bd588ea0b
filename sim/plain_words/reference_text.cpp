#include "sim/plain_words/reference_text.h"

#include <fmt/format.h>

#include <string>

#include "sim/base/say.h"
#include "sim/plain_words/wrapped_lines.h"

namespace firstoff {

namespace {

constexpr std::size_t kCodeWide = 18;  // as wide as the longest macro statement
constexpr std::size_t kWide = 80;      // characters of a sentence before it goes on below

std::string below(std::string_view text) {
    std::string line(kCodeWide, ' ');
    line += wrappedLines(text, kWide, kCodeWide);
    line += '\n';
    return line;
}

std::string wordLine(const ReferenceWord& word) {
    std::string meaning = word.meaning;
    if (!word.measure.empty()) {
        meaning += ' ';
        meaning += fmt::format("({})", word.measure);
    }
    std::string line(kCodeWide + 2, ' ');
    line += fmt::format("{:<4}", word.letter);
    line += wrappedLines(meaning, kWide - 6, kCodeWide + 6);
    line += '\n';
    return line;
}

std::string wordLines(const ReferenceRow& row) {
    std::string text;
    CycleBlock block = CycleBlock::Only;
    for (const ReferenceWord& word : row.words) {
        if (word.block != block) text += below(cycleBlockName(word.block) + ':');
        block = word.block;
        text += wordLine(word);
    }
    return text;
}

std::string exampleLines(const ReferenceRow& row) {
    if (row.example.empty()) return {};
    std::string text = below(tr("For example:"));
    text.append(kCodeWide + 2, ' ');
    for (const char c : row.example) {
        text += c;
        if (c == '\n') text.append(kCodeWide + 2, ' ');
    }
    text += '\n';
    return text;
}

std::string rowText(const ReferenceRow& row) {
    std::string text = fmt::format("{:<{}}{}\n", row.code, kCodeWide, wrappedLines(row.meaning, kWide, kCodeWide));
    if (!row.carriedOut) text += below(tr("Not carried out here: a program with it is not proven."));
    std::string mode = row.holds;
    if (!mode.empty() && !row.ends.empty()) mode += ' ';
    mode += row.ends;
    if (!mode.empty()) text += below(mode);
    return text + wordLines(row) + exampleLines(row);
}

}  // namespace

std::string referenceText(const CodeReference& reference, std::string_view words) {
    const std::vector<std::size_t> rows = searchReference(reference, words);
    if (rows.empty()) return say("Nothing in the reference has all of these words: {}\n", words);
    const bool headings = words.find_first_not_of(" \t") == std::string_view::npos;
    std::string text;
    const ReferenceRow* before = nullptr;
    for (const std::size_t i : rows) {
        const ReferenceRow& row = reference.rows[i];
        if (before != nullptr) text += '\n';
        if (headings && (before == nullptr || before->part != row.part)) {
            text += referencePartName(row.part);
            text += "\n\n";
        }
        text += rowText(row);
        before = &row;
    }
    return text;
}

}  // namespace firstoff
