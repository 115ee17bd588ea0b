// What a T word says.
#pragma once

#include <string_view>

namespace firstoff {

struct ToolWord {
    enum class Form : unsigned char {
        StationAndOffset,  // T0101, T101, T001001
        OffsetOnly,        // T0003: the station stays
        StationOnly,       // T1, T12: taken as station and offset of the same number; controls differ
        Unreadable,        // negative, with decimals, or more than six figures
    };
    int station = 0;
    int offset = 0;
    Form form = Form::Unreadable;
};

// The rule: by the figures written behind the T, leading zeros included.
//   1–2 figures  Ts, Tss     station, and the offset of the same number; T0 and T00 cancel the offset
//   3–4 figures  Tsoo, Tssoo last two figures are the offset; station 0 (T00oo) leaves the station as it is
//   5–6 figures  Tssooo      last three figures are the offset
// `text` is the word as written, blanks allowed; `value` its number.
ToolWord readToolWord(std::string_view text, double value);

}  // namespace firstoff
