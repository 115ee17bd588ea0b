#include "sim/program/program.h"

#include <algorithm>

#include "sim/program/line_scanner.h"
#include "sim/program/reading_faults.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostBytes = std::size_t{1} << 31;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// Room for what is to come: at most a word per letter, a block per line end.
void reserveFor(Program& program) {
    std::size_t letters = 0;
    std::size_t lines = 1;
    for (char c : program.text) {
        letters += static_cast<std::size_t>((c & 0x40) != 0);
        lines += static_cast<std::size_t>(c == '\n');
    }
    // Comments have many letters and no words; no more than what a program of plain words would need.
    program.words.reserve(std::min(letters, program.text.size() / 2 + 1));
    program.blocks.reserve(lines);
}

const char* endOfLine(const char* at, const char* end) {
    while (at < end && *at != '\n' && *at != '\r') ++at;
    return at;
}

void readLines(Program& program) {
    reserveFor(program);
    LineScanner scanner(program);
    const char* at = program.text.data();
    const char* const end = at + program.text.size();
    if (program.text.starts_with(kByteOrderMark)) at += kByteOrderMark.size();
    std::uint32_t line = 1;
    while (at < end) {
        const char* lineEnd = endOfLine(at, end);
        scanner.scan(at, lineEnd, line++);
        at = lineEnd;
        // CR LF, LF or CR alone end a line.
        if (at < end && *at++ == '\r' && at < end && *at == '\n') ++at;
    }
}

// The % that closes the program: the first behind any words; the number of lines if there is none.
std::size_t closingLine(const Program& program) {
    bool words = false;
    for (std::size_t i = 0; i < program.blocks.size(); ++i) {
        const Block& block = program.blocks[i];
        if (words && block.kind == Block::Kind::Percent) return i + 1;
        // The number alone is no block to carry out: a file may begin with several lines of frame.
        words |= block.wordCount > (block.programNumber >= 0 ? 1 : 0) || block.kind == Block::Kind::Statement;
    }
    return program.blocks.size();
}

// Controls read no further than the closing %: what is wrong behind it is worth a note and no more.
void easeWhatIsNotRead(Program& program) {
    const std::size_t last = closingLine(program);
    for (Finding& finding : program.findings) {
        if (finding.span.line <= last) continue;
        finding.severity = Severity::Note;
        finding.unproven = false;
    }
}

bool isControlByte(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 && c != '\t' && c != '\n' && c != '\v' && c != '\f' && c != '\r' && c != '\x1a';
}

// More than one byte in twenty that no keyboard makes, at the beginning: a picture, an archive, a program of another
// kind. Punched-tape control characters, which old transfers leave in, are far rarer.
bool looksBinary(std::string_view text) {
    const std::string_view start = text.substr(0, 4096);
    const auto controls = static_cast<std::size_t>(std::count_if(start.begin(), start.end(), isControlByte));
    return controls > 3 && controls * 20 > start.size();
}

Finding nulFound(const std::string& text, std::size_t nul) {
    TextPlace place{1, 1, 1};
    for (std::size_t i = 0; i < nul; ++i) {
        ++place.column;
        if (text[i] == '\n') place = {place.line + 1, 1, 1};
    }
    return fault::notText(place, nul);
}

}  // namespace

Program readProgram(std::string text, std::string name) {
    Program program;
    program.name = std::move(name);
    program.text = std::move(text);
    const std::size_t nul = program.text.find('\0');
    if (nul != std::string::npos) {
        program.findings.push_back(nulFound(program.text, nul));
    } else if (program.text.size() > kMostBytes) {
        program.findings.push_back(fault::fileTooLarge(program.text.size()));
    } else if (looksBinary(program.text)) {
        program.findings.push_back(fault::binary());
    } else if (program.text.empty() || program.text == kByteOrderMark) {
        program.findings.push_back(fault::emptyFile());
    } else {
        readLines(program);
        easeWhatIsNotRead(program);
        bool anything = !program.words.empty();
        for (const Block& block : program.blocks) anything |= block.kind == Block::Kind::Statement;
        if (!anything && program.findings.empty()) program.findings.push_back(fault::noWords());
    }
    return program;
}

SourceSpan Program::span(BlockId block, const Word& word) const {
    return {SourceSpan::File::Program, block + 1, word.offset - blocks[block].offset + 1, word.length};
}

SourceSpan Program::span(BlockId block) const {
    const std::string_view line = textOf(blocks[block]);
    const std::size_t first = line.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {SourceSpan::File::Program, block + 1, 1, 0};
    const std::size_t last = line.find_last_not_of(" \t");
    return {SourceSpan::File::Program, block + 1, static_cast<std::uint32_t>(first) + 1,
            static_cast<std::uint32_t>(last - first) + 1};
}

}  // namespace firstoff
