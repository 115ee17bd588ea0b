// What a word means under the code it stands with: one table for whoever explains a block or prints a card of codes.
//
// The letters are those of the trade (common practice, no source); the codes are known by what they order, so that one
// row serves all three code systems. Roles that hold under any code (N, F, S, T, X, Z …) have Order::Unknown.
#pragma once

#include <cstdint>
#include <span>

#include "sim/control/codes.h"

namespace firstoff {

// Cycles in two blocks take the same letters in another meaning in each.
enum class CycleBlock : std::uint8_t { Only, First, Second };

enum class WordMeasure : std::uint8_t {
    Number,      // counts, or names something
    Length,      // mm or inch, as it is: a depth, a width, a radius
    Diameter,    // mm or inch, counted across
    Increments,  // least increments, on radius or along Z
    Angle,       // degrees
    Seconds,
    Milliseconds,
};

struct WordRole {
    Order order = Order::Unknown;
    CycleBlock block = CycleBlock::Only;
    char letter = 0;
    WordMeasure measure = WordMeasure::Number;
    const char* meaning = "";  // continues "U2.5: …", without a full stop; English, for tr()
};

std::span<const WordRole> wordRoles();

// Null where the letter has no role of its own under that code.
const WordRole* wordRole(Order order, CycleBlock block, char letter);

// Which block of a cycle in two blocks one with these letters is (a bit for each, 'A' the lowest).
CycleBlock cycleBlockOf(Order order, std::uint32_t letters);

}  // namespace firstoff
