// Splits one line into words and comments.
#pragma once

#include <cstdint>

#include "sim/program/expression_parser.h"
#include "sim/program/program.h"
#include "sim/program/reading_faults.h"

namespace firstoff {

// Appends what it reads to `program`. Goes through every line once, left to right; each byte becomes part of a word, of
// a comment, or is a separator between them. At most one fault is reported per line.
class LineScanner {
public:
    explicit LineScanner(Program& program);  // for one part; Program::text stays where it is meanwhile

    // `begin` … `end` is the line without its end, inside Program::text; `line` counts from 1.
    void scan(const char* begin, const char* end, std::uint32_t line);

private:
    void scanFrom(const char* at);
    const char* word(const char* letterAt, const char* start, bool comma);
    const char* number(const char* letterAt, const char* start, bool comma);
    const char* expression(const char* letterAt, const char* start, const char* from, bool comma);
    const char* comma(const char* at);
    const char* comment(const char* at);
    const char* lineComment(const char* at);
    const char* skipMark(const char* at);
    const char* strayNumber(const char* at);
    const char* strayCharacter(const char* at);
    void statement(const char* at);
    void readStatement(const char* at);
    void report(const ExpressionParser& parser);
    void keepAsText(const char* at);
    bool startsStatement(const char* at) const;
    const char* endOfExpression(const char* at);
    const char* endOfBracket(const char* at);
    bool push(const Word& word);
    void noteSequenceNumber(const Word& word, const char* letterAt);
    void noteProgramNumber(const Word& word);
    void report(Finding finding);
    TextPlace place(const char* at, std::size_t length = 1) const;
    std::uint32_t offset(const char* at) const { return static_cast<std::uint32_t>(at - base_); }

    Program& program_;
    const char* const base_;
    const char* begin_ = nullptr;
    const char* end_ = nullptr;
    const std::size_t firstFinding_;  // of this part
    std::uint32_t line_ = 0;
    Block block_;
    bool reported_ = false;
    bool full_ = false;  // no more words fit into this block
};

}  // namespace firstoff
