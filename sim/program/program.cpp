#include "sim/program/program.h"

#include <algorithm>
#include <limits>
#include <optional>

#include "sim/base/say.h"
#include "sim/program/line_scanner.h"
#include "sim/program/reading_faults.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostBytes = std::size_t{1} << 31;
constexpr std::size_t kMostParts = std::numeric_limits<std::uint16_t>::max();
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// Room for what is to come: at most a word per letter, a block per line end.
void reserveFor(Program& program, std::string_view text) {
    std::size_t letters = 0;
    std::size_t lines = 1;
    for (char c : text) {
        letters += static_cast<std::size_t>((c & 0x40) != 0);
        lines += static_cast<std::size_t>(c == '\n');
    }
    // Comments have many letters and no words; no more than what a program of plain words would need.
    program.words.reserve(program.words.size() + std::min(letters, text.size() / 2 + 1));
    program.blocks.reserve(program.blocks.size() + lines);
}

const char* endOfLine(const char* at, const char* end) {
    while (at < end && *at != '\n' && *at != '\r') ++at;
    return at;
}

// Reads the last part.
void readLines(Program& program) {
    const ProgramPart& part = program.parts.back();
    const std::string_view text = std::string_view(program.text).substr(part.firstByte);
    reserveFor(program, text);
    LineScanner scanner(program);
    const char* at = text.data();
    const char* const end = at + text.size();
    if (text.starts_with(kByteOrderMark)) at += kByteOrderMark.size();
    std::uint32_t line = 1;
    while (at < end) {
        const char* lineEnd = endOfLine(at, end);
        scanner.scan(at, lineEnd, line++);
        at = lineEnd;
        // CR LF, LF or CR alone end a line.
        if (at < end && *at++ == '\r' && at < end && *at == '\n') ++at;
    }
}

// Line of the % that closes the last part: the first behind any words; the number of lines if there is none.
std::size_t closingLine(const Program& program) {
    bool words = false;
    const std::size_t first = program.parts.back().firstBlock;
    for (std::size_t i = first; i < program.blocks.size(); ++i) {
        const Block& block = program.blocks[i];
        if (words && block.kind == Block::Kind::Percent) return i + 1 - first;
        // The number alone is no block to carry out: a file may begin with several lines of frame.
        words |= block.wordCount > (block.programNumber >= 0 ? 1 : 0) || block.kind == Block::Kind::Statement;
    }
    return program.blocks.size() - first;
}

// Controls read no further than the closing %: what is wrong behind it is worth a note and no more.
void easeWhatIsNotRead(Program& program, std::size_t firstFinding) {
    const std::size_t last = closingLine(program);
    for (std::size_t i = firstFinding; i < program.findings.size(); ++i) {
        Finding& finding = program.findings[i];
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

Finding nulFound(std::string_view text, std::size_t nul) {
    TextPlace place{1, 1, 1};
    for (std::size_t i = 0; i < nul; ++i) {
        ++place.column;
        if (text[i] == '\n') place = {place.line + 1, 1, 1};
    }
    return fault::notText(place, nul);
}

// Why a text is not read at all.
std::optional<Finding> unusable(std::string_view text, std::size_t before) {
    const std::size_t nul = text.find('\0');
    if (nul != std::string_view::npos) return nulFound(text, nul);
    if (text.size() + before > kMostBytes) return fault::fileTooLarge(text.size());
    if (looksBinary(text)) return fault::binary();
    if (text.empty() || text == kByteOrderMark) return fault::emptyFile();
    return std::nullopt;
}

// The last part, whose text stands at the end of Program::text.
void readPart(Program& program) {
    const std::size_t firstWord = program.words.size();
    const std::size_t firstFinding = program.findings.size();
    readLines(program);
    easeWhatIsNotRead(program, firstFinding);
    bool anything = program.words.size() > firstWord;
    for (std::size_t i = program.parts.back().firstBlock; i < program.blocks.size(); ++i) {
        anything |= program.blocks[i].kind == Block::Kind::Statement;
    }
    if (!anything && program.findings.size() == firstFinding) program.findings.push_back(fault::noWords());
}

void markPart(Program& program, std::size_t firstFinding) {
    for (std::size_t i = firstFinding; i < program.findings.size(); ++i) {
        program.findings[i].span.part = static_cast<std::uint16_t>(program.parts.size() - 1);
    }
}

}  // namespace

Program readProgram(std::string text, std::string name) {
    Program program;
    program.name = std::move(name);
    program.text = std::move(text);
    program.parts.push_back({program.name, -1, 0, 0});
    if (auto finding = unusable(program.text, 0)) {
        program.findings.push_back(std::move(*finding));
    } else {
        readPart(program);
    }
    return program;
}

void appendProgram(Program& program, std::string_view text, std::string name, std::int32_t number) {
    if (program.parts.size() >= kMostParts) return;
    const std::size_t firstFinding = program.findings.size();
    ProgramPart part{std::move(name), number, static_cast<std::uint32_t>(program.text.size()),
                     static_cast<std::uint32_t>(program.blocks.size())};
    program.parts.push_back(std::move(part));
    if (auto finding = unusable(text, program.text.size())) {
        program.findings.push_back(std::move(*finding));
    } else {
        program.text += text;
        readPart(program);
    }
    markPart(program, firstFinding);
}

std::uint16_t Program::partOf(BlockId block) const {
    if (parts.size() < 2) return 0;
    const auto behind = std::upper_bound(parts.begin(), parts.end(), block,
                                         [](BlockId b, const ProgramPart& part) { return b < part.firstBlock; });
    return static_cast<std::uint16_t>(behind - parts.begin() - 1);
}

std::string Program::lineName(BlockId block) const {
    const std::uint16_t part = partOf(block);
    return part == 0 ? say("line {}", lineOf(block)) : say("line {} of {}", lineOf(block), parts[part].name);
}

std::string_view Program::textOfPart(std::uint16_t part) const {
    const std::size_t next = std::size_t{part} + 1;
    const std::size_t first = parts.empty() ? 0 : parts[part].firstByte;
    const std::size_t end = next < parts.size() ? parts[next].firstByte : text.size();
    return std::string_view(text).substr(first, end - first);
}

BlockId Program::endBlockOf(std::uint16_t part) const {
    const std::size_t next = std::size_t{part} + 1;
    return next < parts.size() ? parts[next].firstBlock : static_cast<BlockId>(blocks.size());
}

BlockId Program::blockAt(std::uint16_t part, std::uint32_t line) const {
    if (line == 0 || part >= std::max<std::size_t>(parts.size(), 1)) return kNoBlock;
    const BlockId block = firstBlockOf(part) + line - 1;
    return block < endBlockOf(part) ? block : kNoBlock;
}

SourceSpan Program::span(BlockId block, const Word& word) const {
    return {SourceSpan::File::Program, lineOf(block), word.offset - blocks[block].offset + 1, word.length,
            partOf(block)};
}

SourceSpan Program::span(BlockId block) const {
    SourceSpan result{SourceSpan::File::Program, lineOf(block), 1, 0, partOf(block)};
    const std::string_view line = textOf(blocks[block]);
    const std::size_t first = line.find_first_not_of(" \t");
    if (first == std::string_view::npos) return result;
    result.column = static_cast<std::uint32_t>(first) + 1;
    result.length = static_cast<std::uint32_t>(line.find_last_not_of(" \t") - first) + 1;
    return result;
}

}  // namespace firstoff
