#include "sim/control/tool_word.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

ToolWord readToolWord(std::string_view text, double value) {
    ToolWord result;
    // T101. is whole in spite of its point; T1.5 is not.
    const auto point = std::min(text.find('.'), text.size());
    const auto figures = std::count_if(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(point),
                                       [](char c) { return c >= '0' && c <= '9'; });
    if (value < 0 || value != std::floor(value) || figures > 6) return result;
    const int number = static_cast<int>(value);
    if (figures <= 2) {
        result.station = number;
        result.offset = number;
        result.form = number == 0 ? ToolWord::Form::OffsetOnly : ToolWord::Form::StationOnly;
        return result;
    }
    const int split = figures <= 4 ? 100 : 1000;
    result.station = number / split;
    result.offset = number % split;
    result.form = result.station == 0 ? ToolWord::Form::OffsetOnly : ToolWord::Form::StationAndOffset;
    return result;
}

}  // namespace firstoff
