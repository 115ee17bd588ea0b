// What firstoff has to say about a program: values with a place in the text, never an exception.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/point.h"

namespace firstoff {

// A piece of the text of a program or of a set-up file. Lines and columns count from 1 as editors show them; 0 means the
// finding belongs to no line. Columns count bytes.
struct SourceSpan {
    enum class File : std::uint8_t { Program, Setup };
    File file = File::Program;
    std::uint32_t line = 0;
    std::uint32_t column = 0;
    std::uint32_t length = 0;
    std::uint16_t part = 0;  // of the program: 0 its own file, else a file it calls; lines count within that file

    friend bool operator==(const SourceSpan&, const SourceSpan&) = default;
};

enum class Severity : std::uint8_t {
    Note,     // worth knowing; leaves the verdict alone
    Warning,  // would spoil the part or is a known danger: verdict `problems`
    Stop,     // would hit something, or the control would stop with an alarm: verdict `problems`
};

struct Finding {
    Severity severity = Severity::Note;
    // Stable, lower case with hyphens, e.g. "rapid-into-material". Scripts and tests rely on it.
    std::string code;
    SourceSpan span;
    // True: something was not understood or not modelled, so the trial proves nothing about it. Verdict `not proven`
    // unless something worse is found as well.
    bool unproven = false;
    std::optional<double> timeS;   // when in the cycle, seconds from its start
    std::optional<Point> place;    // lathe frame
    std::string message;           // what is wrong, with figures, in one or two plain sentences
    std::string remedy;            // what to do about it
    std::vector<std::pair<std::string, double>> values;  // figures by name with the unit in it, e.g. {"depth_mm", 1.25}
};

// "stop", "warning", "note": the words of the report; English, for tr().
const char* name(Severity severity);

enum class Verdict : std::uint8_t { Clear, Problems, NotProven };

// "clear", "problems", "not-proven": the words of the report; English, for tr().
const char* name(Verdict verdict);

// Problems if any warning or stop is a known fault; otherwise not proven if anything was not understood or not modelled;
// otherwise clear.
Verdict verdictOf(const std::vector<Finding>& findings);

}  // namespace firstoff
