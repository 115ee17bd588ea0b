// Reads the number of a word from text in which blanks mean nothing.
#pragma once

#include <cstddef>

namespace firstoff {

struct Decimal {
    enum class Fault : unsigned char {
        None,
        NoDigits,     // `-`, `.`, or nothing at all
        SecondPoint,  // `1.2.3`; `value` is what stands before the second point
    };
    double value = 0;             // correctly rounded
    const char* end = nullptr;    // past the last character that belongs to the number
    const char* fault = nullptr;  // the second point
    bool hasPoint = false;
    Fault kind = Fault::None;
};

// Sign, digits, at most one decimal point, blanks and tabs anywhere (NISTIR 6556 sec. 3.3 and 3.3.2.1). `end` is
// `begin` when there is no number at all. Digits behind a second point are taken in, so that the reader resumes behind
// them.
Decimal readDecimal(const char* begin, const char* limit);

}  // namespace firstoff
