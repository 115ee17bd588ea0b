// Macro statements: `#1=2`, `IF[…]THEN#1=2`, `IF[…]GOTO100`, `GOTO100`, `WHILE[…]DO1`, `DO1`, `END1`.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/program/expression.h"

namespace firstoff {

class ExpressionParser;

struct Assignment {
    Expression index;  // the number of the variable set
    Expression value;
};

struct Statement {
    enum class Kind : std::uint8_t {
        Unreadable,  // was reported
        Assign,
        Goto,
        Do,  // with a condition for WHILE, without one for DO alone
        End,
    };
    Kind kind = Kind::Unreadable;
    std::uint8_t loop = 0;              // of Do and End: 1 … 3
    bool readsWhatItSets = false;       // `#1=2 #2=#1`: controls differ whether #2 is the new or the old #1
    Expression condition;               // of IF and WHILE; not usable where there is none
    Expression target;                  // of Goto: a sequence number
    std::uint32_t firstAssignment = 0;  // into Program::assignments
    std::uint16_t assignmentCount = 0;
    std::uint32_t textOffset = 0;  // of the statement without what stands before it, in Program::text
    std::uint32_t textLength = 0;  // without comments behind it
};

// Reads one statement to the end of its block; what is wrong is the parser's error.
Statement parseStatement(ExpressionParser& parser, std::vector<Assignment>& assignments,
                         const std::vector<Instruction>& code);

}  // namespace firstoff
