// A line of a program as a lesson names it: by its N word, so that lines put in above it move nothing, or by its
// number.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "sim/program/program.h"

namespace firstoff {

struct LinePlace {
    std::uint32_t number = 0;
    bool sequence = false;  // the number of an N word, else of the line, from 1
    friend bool operator==(const LinePlace&, const LinePlace&) = default;
};

// "N210" or "12"; nothing for anything else.
std::optional<LinePlace> linePlaceOf(std::string_view text);
// "N210", "line 12"
std::string inWords(const LinePlace& place);

// The block in the program's own file, kNoBlock where there is none; of several with one N word the first.
BlockId blockOf(const Program& program, const LinePlace& place);

}  // namespace firstoff
