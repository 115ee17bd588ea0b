#include "sim/editing/quick_fix.h"

#include <algorithm>

#include "sim/base/characters.h"
#include "sim/base/say.h"
#include "sim/control/profile_search.h"
#include "sim/control/program_texts.h"

namespace firstoff {

namespace {

struct Place {
    const Trial& trial;
    const Finding& finding;
    BlockId id = kNoBlock;
    std::string_view text;          // of the program
    std::size_t at = 0;             // where the finding is, byte of `text`
    std::size_t from = 0, end = 0;  // of its line

    const Program& program() const { return trial.program; }
    const Block& block() const { return program().blocks[id]; }
};

QuickFix put(std::string words, std::size_t from, std::size_t to, std::string with) {
    return {std::move(words), {{from, to, std::move(with)}}};
}

std::string_view lineBreakOf(std::string_view text) {
    return text.find("\r\n") != std::string_view::npos ? "\r\n" : "\n";
}

// It was read as a comment to the end of the line, and stays one.
std::optional<QuickFix> closeComment(const Place& p) {
    return put(say("Close the comment at the end of the line"), p.end, p.end, ")");
}

// Only where nothing stands behind the first ')': what a control that counts brackets makes of the rest is not known.
std::optional<QuickFix> flattenComment(const Place& p) {
    const auto comment = std::find_if(p.program().comments.begin(), p.program().comments.end(), [&](const Comment& c) {
        return c.offset <= p.at && p.at < std::size_t{c.offset} + c.length;
    });
    if (comment == p.program().comments.end()) return std::nullopt;
    const std::size_t closed = std::size_t{comment->offset} + comment->length;
    const std::string_view behind = p.text.substr(closed, p.end - closed);
    if (!std::all_of(behind.begin(), behind.end(), isBlank)) return std::nullopt;
    QuickFix fix{say("Take the inner bracket out of the comment"), {}};
    for (std::size_t i = comment->offset + std::size_t{1}; i < closed; ++i) {
        if (p.text[i] == '(') fix.changes.push_back({i, i + 1, ""});
    }
    return fix;
}

// A dash of a document between a letter and figures is a minus; a hard blank is a blank.
std::optional<QuickFix> plainCharacter(const Place& p) {
    const std::string_view bytes = p.text.substr(p.at, p.finding.span.length);
    if (bytes == "\xC2\xA0") return put(say("Write an ordinary blank"), p.at, p.at + bytes.size(), " ");
    static constexpr std::string_view kDashes[] = {"\xE2\x88\x92", "\xE2\x80\x90", "\xE2\x80\x91", "\xE2\x80\x92",
                                                   "\xE2\x80\x93", "\xE2\x80\x94", "\xE2\x80\x95"};
    if (std::find(std::begin(kDashes), std::end(kDashes), bytes) == std::end(kDashes)) return std::nullopt;
    const std::size_t behind = p.at + bytes.size();
    const bool number = behind < p.end && (isDigit(p.text[behind]) || p.text[behind] == '.');
    if (p.at == p.from || !isLetter(p.text[p.at - 1]) || !number) return std::nullopt;
    return put(say("Write a plain minus sign"), p.at, behind, "-");
}

// A letter without figures cannot have a program number behind it, nor can figures: the O is a nought.
std::optional<QuickFix> noughtForLetter(const Place& p) {
    const auto isO = [](char c) { return c == 'O' || c == 'o'; };
    std::size_t o = p.at;
    if (!isO(p.text[o])) {
        ++o;
    } else if (o == p.from || !(isDigit(p.text[o - 1]) || p.text[o - 1] == '.')) {
        return std::nullopt;
    }
    if (o >= p.end || !isO(p.text[o])) return std::nullopt;
    // GOT0100 is rather a jump with a figure for a letter.
    if (o + 1 < p.end && isLetter(p.text[o + 1])) return std::nullopt;
    return put(say("Write the figure 0 for the letter O"), o, o + 1, "0");
}

// ",C", ",R" and ",A" have a letter behind the comma; before figures it stands for the point.
std::optional<QuickFix> pointForComma(const Place& p) {
    const bool before = p.at > p.from && isDigit(p.text[p.at - 1]);
    const bool behind = p.at + 1 < p.end && isDigit(p.text[p.at + 1]);
    if (!before || !behind || p.text[p.at] != ',') return std::nullopt;
    return put(say("Write a decimal point for the comma"), p.at, p.at + 1, ".");
}

bool is(const Trial& trial, const Finding& finding, std::string_view code) {
    return std::any_of(trial.findings.begin(), trial.findings.end(),
                       [&](const Finding& other) { return &other != &finding && other.code == code; });
}

// A line of its own behind the last one with words of blocks [first, end).
std::optional<QuickFix> appendBlock(const Place& p, BlockId first, BlockId end, std::string words, const char* block) {
    BlockId last = end;
    while (last > first) {
        const Block& b = p.program().blocks[last - 1];
        if (b.wordCount > 0 || b.kind == Block::Kind::Statement) break;
        --last;
    }
    if (last == first) return std::nullopt;
    const Block& behind = p.program().blocks[last - 1];
    const std::size_t at = std::size_t{behind.offset} + behind.length;
    std::string with(lineBreakOf(p.text));
    with += block;
    return put(std::move(words), at, at, std::move(with));
}

// Not where the file may have been cut off: then more is missing than its end.
std::optional<QuickFix> endProgram(const Place& p) {
    if (is(p.trial, p.finding, "percent-not-closed")) return std::nullopt;
    return appendBlock(p, 0, endOfProgramText(p.program()), say("End the program with M30"), "M30");
}

// The finding stands at the call; what is missing, at the end of the called text.
std::optional<QuickFix> returnFromProgram(const Place& p) {
    const Block& call = p.block();
    const Word* word = std::find_if(p.program().begin(call), p.program().end(call),
                                    [](const Word& w) { return w.letter == 'P' && !w.comma; });
    if (word == p.program().end(call) || word->form != Word::Form::Number) return std::nullopt;
    const ProgramTexts texts(p.program());
    const auto number = static_cast<std::int32_t>(word->value);
    const ProgramText* called = texts.find(number >= 10000 ? number % 10000 : number);
    if (called == nullptr || p.program().partOf(called->first) != 0) return std::nullopt;
    return appendBlock(p, called->first, called->end, say("End program {} with M99", called->number), "M99");
}

// Cut off is a program that does not end; one whose last block ends it is whole.
std::optional<QuickFix> closeTape(const Place& p) {
    const Program& program = p.program();
    for (BlockId id = program.endBlockOf(0); id-- > 0;) {
        const Block& block = program.blocks[id];
        if (block.wordCount == 0 && block.kind != Block::Kind::Statement) continue;
        const bool ends = std::any_of(program.begin(block), program.end(block), [](const Word& w) {
            return w.letter == 'M' && w.form == Word::Form::Number && (w.value == 30 || w.value == 2 || w.value == 99);
        });
        if (!ends) return std::nullopt;
        return appendBlock(p, 0, program.endBlockOf(0), say("Write the closing %"), "%");
    }
    return std::nullopt;
}

// A word that says the same a second time.
std::optional<QuickFix> dropRepeated(const Place& p) {
    const Block& block = p.block();
    const Word* const begin = p.program().begin(block);
    const Word* const end = p.program().end(block);
    const Word* second = std::find_if(begin, end, [&](const Word& w) { return w.offset == p.at; });
    if (second == end || second->form != Word::Form::Number || second->comma) return std::nullopt;
    const auto same = [&](const Word& w) {
        return w.letter == second->letter && !w.comma && w.form == Word::Form::Number && w.value == second->value &&
               w.hasPoint == second->hasPoint;
    };
    const auto sameLetter = [&](const Word& w) { return w.letter == second->letter; };
    if (std::count_if(begin, end, sameLetter) != 2 || std::count_if(begin, end, same) != 2) return std::nullopt;
    const Word* later = second;
    for (const Word* w = begin; w != end; ++w) {
        if (same(*w)) later = w;
    }
    std::size_t from = later->offset;
    while (from > p.from && isBlank(p.text[from - 1])) --from;
    return put(say("Take the second {} out", std::string(p.program().textOf(*later))), from,
               std::size_t{later->offset} + later->length, "");
}

using Mend = std::optional<QuickFix> (*)(const Place&);
struct Row {
    std::string_view code;
    Mend mend;
};
constexpr Row kRows[] = {
    {"unclosed-comment", closeComment},
    {"nested-comment", flattenComment},
    {"bad-character", plainCharacter},
    {"letter-without-number", noughtForLetter},
    {"decimal-comma", pointForComma},
    {"no-program-end", endProgram},
    {"subprogram-without-end", returnFromProgram},
    {"percent-not-closed", closeTape},
    {"word-twice", dropRepeated},
};

}  // namespace

std::optional<QuickFix> quickFix(const Trial& trial, const Finding& finding) {
    const auto* row =
        std::find_if(std::begin(kRows), std::end(kRows), [&](const Row& r) { return r.code == finding.code; });
    const SourceSpan& span = finding.span;
    if (row == std::end(kRows) || span.file != SourceSpan::File::Program || span.part != 0) return std::nullopt;
    const BlockId id = trial.program.blockAt(0, span.line);
    if (id == kNoBlock || span.column == 0) return std::nullopt;
    const Block& block = trial.program.blocks[id];
    const std::size_t end = std::size_t{block.offset} + block.length;
    const std::size_t at = block.offset + std::size_t{span.column} - 1;
    if (at > end) return std::nullopt;
    return row->mend({trial, finding, id, trial.program.text, at, block.offset, end});
}

}  // namespace firstoff
