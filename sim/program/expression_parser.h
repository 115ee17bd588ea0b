// Reads expression text into instructions, left to right, comments and blanks between its parts left out.
#pragma once

#include <string_view>
#include <vector>

#include "sim/program/expression.h"

namespace firstoff {

// Why an expression or a macro statement could not be read.
enum class ExpressionError : std::uint8_t {
    None,
    ValueMissing,     // an operator or a bracket where a value should stand
    BracketMissing,   // `[` or `]` expected
    UnknownFunction,  // letters that name nothing
    RefusedFunction,  // BIN, BCD and the like: understood, not carried out
    TooDeep,          // more brackets within brackets than are read
    BadNumber,        // `1.2.3`
    BadIndex,         // `#1.5`, `#123456`
    // Of statements:
    StrayText,  // something behind what should be the end
    EqualsMissing,
    NoAction,     // IF[…] without THEN or GOTO
    BadLoop,      // DO and END with a number other than 1, 2, 3
    WordsBeside,  // words before a statement
};

class ExpressionParser {
public:
    // Appends to `code`; reads `begin` … `end`, which lie in the text that starts at `base`.
    ExpressionParser(std::vector<Instruction>& code, const char* base, const char* begin, const char* end)
        : code_(code), base_(base), at_(begin), end_(end) {}

    // All operators. Not usable after an error.
    Expression expression();
    // One value with its signs: `-#1`, `[…]`, `SIN[…]`.
    Expression operand();
    // What stands behind a `#`, as the number of a variable.
    Expression index();

    bool atEnd();                          // nothing but blanks and comments is left
    bool take(char c);                     // steps over `c` if it is next
    bool takeWord(std::string_view word);  // capitals; with blanks skipped before it
    char next();                           // 0 at the end
    const char* at() const { return at_; }

    void fail(ExpressionError error, const char* at, std::size_t length = 1);
    ExpressionError error() const { return error_; }
    const char* errorAt() const { return errorAt_; }
    std::size_t errorLength() const { return errorLength_; }
    // Operators stand beside each other whose order differs between controls; null if not.
    const char* unsureOrderAt() const { return unsureAt_; }

private:
    using Op = Instruction::Op;
    template <class Part>
    Expression whole(Part part);
    bool comparison();
    bool sum();
    bool product();
    bool power();
    bool signedValue();
    bool value();
    bool variable();
    bool bracket();
    bool function();
    bool secondOfArcTangent(const char* name);
    bool takeOperator(std::string_view word);
    void skip();
    void emit(Op op, const char* at, double number = 0);
    bool broken(ExpressionError error, const char* at, std::size_t length = 1);

    std::vector<Instruction>& code_;
    const char* const base_;
    const char* at_;
    const char* const end_;
    int depth_ = 0;
    bool logicInSum_ = false;  // the sum read last has AND, OR or XOR outside brackets
    ExpressionError error_ = ExpressionError::None;
    const char* errorAt_ = nullptr;
    std::size_t errorLength_ = 0;
    const char* unsureAt_ = nullptr;
};

// Length of a function's name at `at` with a bracket behind it, 0 if there is none.
std::size_t functionName(const char* at, const char* end);

}  // namespace firstoff
