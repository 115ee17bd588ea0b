// Which codes the control knows, and which of them exclude each other.
#pragma once

#include <cstdint>

namespace firstoff {

// Codes of one group exclude each other within a block. Groups as NISTIR 6556 table 4 has them, with the members of the
// turning trade.
enum class CodeGroup : std::uint8_t {
    Unknown,
    // G
    Motion,        // G00 G01 G02 G03
    FeedMode,      // G98 G99
    Units,         // G20 G21
    Compensation,  // G40 G41 G42
    WorkOffset,    // G54–G59
    SpeedMode,     // G96 G97
    OneShot,       // G04 G28 G50 G70 G71: act in their own block only and take its words
    Machine,       // G53: acts in its own block, together with a motion code
    // M
    ProgramFlow,  // M00 M01 M02 M30 M99
    Spindle,      // M03 M04 M05
    Coolant,      // M08 M09
    ToolChange,   // M06
};

// `tenths`: ten times the number of the code, so that G54.1 is 541.
CodeGroup groupOfG(int tenths);
CodeGroup groupOfM(int tenths);

}  // namespace firstoff
