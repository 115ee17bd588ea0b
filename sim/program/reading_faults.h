// What can be wrong with a program as text, in plain sentences.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "sim/base/finding.h"
#include "sim/program/expression_parser.h"
#include "sim/program/program.h"

namespace firstoff {

// Where in a line: `column` from 1, bytes.
struct TextPlace {
    std::uint32_t line = 0;
    std::uint32_t column = 0;
    std::uint32_t length = 1;
};

namespace fault {

// `bytes` starts with the character; its length is found from its UTF-8 lead byte and set in the span.
Finding badCharacter(TextPlace at, std::string_view bytes);
Finding decimalComma(TextPlace at);
Finding unclosedComment(TextPlace at);
Finding nestedComment(TextPlace at);
Finding unopenedComment(TextPlace at);
Finding unclosedBracket(TextPlace at);
Finding secondPoint(TextPlace at, std::string_view word);
Finding letterWithoutNumber(TextPlace at, char letter);
Finding numberWithoutLetter(TextPlace at, std::string_view number);
Finding skipInsideBlock(TextPlace at);
Finding lineTooLong(TextPlace at);
Finding longSequenceNumber(TextPlace at);
Finding oddSequenceNumber(TextPlace at);
Finding notText(TextPlace at, std::size_t offset);
Finding binary();
Finding emptyFile();
Finding noWords();
Finding fileTooLarge(std::size_t bytes);
// `text`: what stands where it went wrong.
Finding expression(TextPlace at, ExpressionError error, std::string_view text);
Finding operatorOrder(TextPlace at);
Finding tooManyFaults(std::size_t limit, TextPlace at);

}  // namespace fault

// Bytes of the character that starts with `lead` (1 where it is no lead byte).
std::size_t characterBytes(unsigned char lead);

}  // namespace firstoff
