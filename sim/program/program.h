// A program as text, split losslessly into blocks and words. Knows nothing about lathes: no word has a meaning here.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/finding.h"
#include "sim/program/statement.h"

namespace firstoff {

// A letter and its number as they stand in the text, e.g. `X-.5`, `g01`, `,C2`.
struct Word {
    enum class Form : std::uint8_t {
        Number,      // `value` holds it
        Missing,     // a letter with nothing usable behind it (`X` at the end of a block)
        Expression,  // `X#1`, `X[#1+2]`: `value` is its place in Program::expressions
    };
    double value = 0;
    std::uint32_t offset = 0;  // of the letter (or of the comma before it) in Program::text
    std::uint16_t length = 0;  // bytes
    char letter = 0;           // upper case, A–Z
    Form form = Form::Number;
    bool comma = false;     // written with a comma before it: `,C` `,R` `,A`
    bool hasPoint = false;  // a decimal point was written
};

struct Comment {
    std::uint32_t offset = 0;  // of the bracket or semicolon
    std::uint32_t length = 0;  // with its brackets
};

// One line of the program. Blank lines and comment lines are blocks without words.
struct Block {
    enum class Kind : std::uint8_t {
        Words,      // words, possibly none
        Percent,    // `%`: start or end of tape
        Statement,  // `#1=2`, `IF[…]GOTO…`, `WHILE…`: a macro statement: Program::statements has it
    };
    std::uint32_t offset = 0;     // of the first byte of the line in Program::text
    std::uint32_t length = 0;     // bytes, without the line end
    std::uint32_t firstWord = 0;  // index into Program::words
    std::uint16_t wordCount = 0;
    Kind kind = Kind::Words;
    std::uint8_t skip = 0;             // block skip: 0 none, 1 for `/`, n for `/n`
    std::int32_t sequenceNumber = -1;  // of the N word, -1 without one
    std::int32_t programNumber = -1;   // of the O word (or `:`), -1 without one
    std::uint32_t statement = 0;       // Statement: index into Program::statements
};

using BlockId = std::uint32_t;  // index into Program::blocks; Program::lineOf gives its line
inline constexpr BlockId kNoBlock = 0xffffffffu;

// A file of the program: its own, or one that holds programs it calls.
struct ProgramPart {
    std::string name;              // of the file as the user knows it; for messages only
    std::int32_t number = -1;      // that the file's name says, for a text without O number; -1 if none
    std::uint32_t firstByte = 0;   // of its text in Program::text
    std::uint32_t firstBlock = 0;  // of its lines in Program::blocks
};

struct Program {
    std::string name;  // file name as the user gave it; for messages only
    std::string text;  // every byte as read; a UTF-8 byte order mark is kept and skipped
    std::vector<Word> words;
    std::vector<Comment> comments;
    std::vector<Block> blocks;
    std::vector<Expression> expressions;  // of words
    std::vector<Statement> statements;
    std::vector<Assignment> assignments;    // of statements
    std::vector<Instruction> instructions;  // of expressions and statements
    std::vector<Finding> findings;
    std::vector<ProgramPart> parts;  // the program's own file, then those appended; empty where nothing was read

    // The file and the line in it (from 1) where a block stands.
    std::uint16_t partOf(BlockId block) const;
    std::uint32_t lineOf(BlockId block) const {
        return parts.size() < 2 ? block + 1 : block - parts[partOf(block)].firstBlock + 1;
    }
    // "line 12", or "line 12 of O1234.nc" where that is not the program's own file.
    std::string lineName(BlockId block) const;
    // Whether a block stands in the program's own file, or is none.
    bool isOwn(BlockId block) const { return parts.size() < 2 || block < parts[1].firstBlock || block == kNoBlock; }
    // The blocks of a part: from its first to the one behind its last.
    BlockId firstBlockOf(std::uint16_t part) const { return parts.empty() ? 0 : parts[part].firstBlock; }
    BlockId endBlockOf(std::uint16_t part) const;
    // The block of a line of a part, kNoBlock if there is none.
    BlockId blockAt(std::uint16_t part, std::uint32_t line) const;

    std::string_view textOf(const Word& word) const { return std::string_view(text).substr(word.offset, word.length); }
    std::string_view textOf(const Block& block) const {
        return std::string_view(text).substr(block.offset, block.length);
    }
    // The words of a block, N, O and skip included.
    const Word* begin(const Block& block) const { return words.data() + block.firstWord; }
    const Word* end(const Block& block) const { return words.data() + block.firstWord + block.wordCount; }

    std::string_view textOfPart(std::uint16_t part) const;

    // Span of a word, or of a whole block, for findings.
    SourceSpan span(BlockId block, const Word& word) const;
    SourceSpan span(BlockId block) const;
};

// Splits `text` into blocks and words. Never fails: what cannot be read becomes a finding at its line and column, and
// reading goes on with the next block. Bytes that are no text at all (NUL) give one finding of severity Stop and an
// empty list of blocks.
Program readProgram(std::string text, std::string name);

// Adds a file that holds programs called by this one. What cannot be read is a finding of that part; `number` as in
// ProgramPart. A program has at most 65535 parts; more are not added.
void appendProgram(Program& program, std::string_view text, std::string name, std::int32_t number);

}  // namespace firstoff
