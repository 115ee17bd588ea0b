#include "gui/program_text.h"

#include <algorithm>
#include <string>

#include "sim/program/program.h"

namespace firstoff::gui {

namespace {

WordKind kindOf(const Word& word) {
    switch (word.letter) {
        case 'G':
            return WordKind::Motion;
        case 'X':
        case 'Z':
        case 'Y':
        case 'U':
        case 'W':
        case 'V':
        case 'I':
        case 'J':
        case 'K':
        case 'R':
        case 'A':
        case 'C':
            return WordKind::Axis;
        case 'F':
        case 'S':
            return WordKind::Feed;
        case 'T':
            return WordKind::Tool;
        case 'M':
        case 'P':
        case 'Q':
        case 'L':
        case 'H':
            return WordKind::Misc;
        default:
            return WordKind::Other;
    }
}

}  // namespace

std::vector<TextRun> runsOf(std::string_view line) {
    std::vector<TextRun> marked;
    const Program program = readProgram(std::string(line), {});
    for (const Word& word : program.words) marked.push_back({word.offset, word.offset + word.length, kindOf(word)});
    for (const Comment& comment : program.comments) {
        marked.push_back({comment.offset, comment.offset + comment.length, WordKind::Comment});
    }
    std::sort(marked.begin(), marked.end(), [](const TextRun& a, const TextRun& b) { return a.from < b.from; });
    std::vector<TextRun> runs;
    std::size_t at = 0;
    const auto add = [&](std::size_t to, WordKind kind) {
        if (to <= at) return;
        if (!runs.empty() && runs.back().kind == kind) {
            runs.back().to = to;
        } else {
            runs.push_back({at, to, kind});
        }
        at = to;
    };
    for (const TextRun& run : marked) {
        add(std::min(run.from, line.size()), WordKind::Plain);
        add(std::min(run.to, line.size()), run.kind);
    }
    add(line.size(), WordKind::Plain);
    return runs;
}

Colour colourOf(const Palette& palette, WordKind kind) {
    switch (kind) {
        case WordKind::Plain:
            return palette.text;
        case WordKind::Motion:
            return palette.wordMotion;
        case WordKind::Axis:
            return palette.wordAxis;
        case WordKind::Feed:
            return palette.wordFeed;
        case WordKind::Tool:
            return palette.wordTool;
        case WordKind::Misc:
            return palette.wordMisc;
        case WordKind::Other:
            return palette.wordOther;
        case WordKind::Comment:
            return palette.comment;
    }
    return palette.text;
}

}  // namespace firstoff::gui
