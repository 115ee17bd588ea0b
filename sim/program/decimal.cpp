#include "sim/program/decimal.h"

#include <charconv>
#include <cstdint>
#include <limits>
#include <string>
#include <system_error>

#include "sim/base/characters.h"

namespace firstoff {

namespace {

constexpr int kExactDigits =
    15;  // any whole number of 15 digits, and 10^15, are exact doubles: one rounding in the end
constexpr double kPowersOfTen[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                   1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

// Where the number goes on behind blanks, or null when something else follows.
const char* behindBlanks(const char* at, const char* limit) {
    while (at < limit && isBlank(*at)) ++at;
    return at < limit && (isDigit(*at) || *at == '.') ? at : nullptr;
}

// For numbers of more digits than fit: the standard's reader, on a copy without blanks.
double longValue(const char* begin, const char* end) {
    std::string digits;
    for (const char* at = begin; at < end; ++at) {
        if (isDigit(*at) || *at == '.') digits += *at;
    }
    double value = 0;
    const std::errc error = std::from_chars(digits.data(), digits.data() + digits.size(), value).ec;
    // Hundreds of digits: as large, or as small, as can be held.
    if (error != std::errc{}) return digits[0] == '.' || digits[0] == '0' ? 0 : std::numeric_limits<double>::max();
    return value;
}

}  // namespace

Decimal readDecimal(const char* begin, const char* limit) {
    Decimal result;
    const char* at = begin;
    bool negative = false;
    while (at < limit && isBlank(*at)) ++at;
    if (at < limit && (*at == '-' || *at == '+')) {
        negative = *at == '-';
        ++at;
        while (at < limit && isBlank(*at)) ++at;
    }
    const char* const first = at;
    const char* end = begin;
    std::uint64_t mantissa = 0;
    int digits = 0;
    int behindPoint = 0;
    bool anyDigit = false;
    while (at < limit) {
        if (isDigit(*at)) {
            const char* const run = at;
            do {
                if (digits < kExactDigits) mantissa = mantissa * 10 + static_cast<std::uint64_t>(*at - '0');
                // Leading zeros take no place.
                digits += mantissa != 0 ? 1 : 0;
            } while (++at < limit && isDigit(*at));
            if (result.hasPoint) behindPoint += static_cast<int>(at - run);
            anyDigit = true;
            end = at;
        } else if (*at == '.') {
            if (result.hasPoint) {
                result.kind = Decimal::Fault::SecondPoint;
                result.fault = at;
                break;
            }
            result.hasPoint = true;
            end = ++at;
        } else {
            const char* next = isBlank(*at) ? behindBlanks(at, limit) : nullptr;
            if (next == nullptr) break;
            at = next;
        }
    }
    const char* const numberEnd = end;
    // Where there is a point there must be a digit too.
    if (!anyDigit) {
        result.kind = Decimal::Fault::NoDigits;
        result.end = begin;
        return result;
    }
    const bool exact = digits <= kExactDigits && behindPoint <= kExactDigits;
    const double magnitude =
        exact ? static_cast<double>(mantissa) / kPowersOfTen[behindPoint] : longValue(first, numberEnd);
    result.value = negative && magnitude != 0 ? -magnitude : magnitude;
    result.end = numberEnd;
    if (result.kind == Decimal::Fault::SecondPoint) {
        while (const char* next = behindBlanks(result.end, limit)) result.end = next + 1;
    }
    return result;
}

}  // namespace firstoff
