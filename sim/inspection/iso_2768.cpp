#include "sim/inspection/iso_2768.h"

#include <limits>

#include "sim/base/units.h"

namespace firstoff {

namespace {

constexpr double kNoEnd = std::numeric_limits<double>::infinity();
constexpr double kNone = 0;

// f, m, c and v above `over` up to `upTo`.
struct Row {
    double over, upTo;
    double f, m, c, v;
};

constexpr Row kLengths[] = {{0.5, 3, 0.05, 0.1, 0.2, kNone}, {3, 6, 0.05, 0.1, 0.3, 0.5},
                            {6, 30, 0.1, 0.2, 0.5, 1},       {30, 120, 0.15, 0.3, 0.8, 1.5},
                            {120, 400, 0.2, 0.5, 1.2, 2.5},  {400, 1000, 0.3, 0.8, 2, 4},
                            {1000, 2000, 0.5, 1.2, 3, 6},    {2000, 4000, kNone, 2, 4, 8}};
constexpr Row kRoundings[] = {{0.5, 3, 0.2, 0.2, 0.4, 0.4}, {3, 6, 0.5, 0.5, 1, 1}, {6, kNoEnd, 1, 1, 2, 2}};
// Minutes of arc.
constexpr Row kAngles[] = {{0, 10, 60, 60, 90, 180},
                           {10, 50, 30, 30, 60, 120},
                           {50, 120, 20, 20, 30, 60},
                           {120, 400, 10, 10, 15, 30},
                           {400, kNoEnd, 5, 5, 10, 20}};

template <std::size_t N>
std::optional<double> looked(const Row (&rows)[N], char grade, double size) {
    for (const Row& row : rows) {
        // The first step includes its lower end: "0.5 up to 3".
        const bool in = size <= row.upTo && (size > row.over || (&row == rows && size == row.over));
        if (!in) continue;
        const double value = grade == 'f' ? row.f : grade == 'm' ? row.m : grade == 'c' ? row.c : row.v;
        if (value == kNone) return std::nullopt;
        return value;
    }
    return std::nullopt;
}

}  // namespace

std::optional<double> generalLengthMm(char grade, double sizeMm) {
    return looked(kLengths, grade, sizeMm);
}

std::optional<double> generalRoundingMm(char grade, double sizeMm) {
    return looked(kRoundings, grade, sizeMm);
}

std::optional<double> generalAngle(char grade, double shorterSideMm) {
    const auto minutes = looked(kAngles, grade, shorterSideMm);
    if (!minutes) return std::nullopt;
    return radians(*minutes / 60);
}

}  // namespace firstoff
