#include "sim/inspection/iso_286_deviations.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace firstoff {

namespace {

// Ends of the steps; these letters have the finer ones.
constexpr std::array<double, 25> kEnds = {3,   6,   10,  14,  18,  24,  30,  40,  50,  65,  80,  100, 120,
                                          140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500};
constexpr std::array<double, 13> kMainEnds = {3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500};

struct Letter {
    std::string_view name;
    double fromMemoryUpTo;  // mm
    // µm by step, for a size up to the end of it; 0: none.
    std::array<short, kEnds.size()> um;
};

constexpr Letter kLetters[] = {
    {"a", 0, {-270, -270, -280, -290, -290, -300, -300, -310,  -320,  -340,  -360,  -380, -410,
              -460, -520, -580, -660, -740, -820, -920, -1050, -1200, -1350, -1500, -1650}},
    {"b", 0, {-140, -140, -150, -150, -150, -160, -160, -170, -180, -190, -200, -220, -240,
              -260, -280, -310, -340, -380, -420, -480, -540, -600, -680, -760, -840}},
    {"c", 40, {-60,  -70,  -80,  -95,  -95,  -110, -110, -120, -130, -140, -150, -170, -180,
               -200, -210, -230, -240, -260, -280, -300, -330, -360, -400, -440, -480}},
    {"cd", 0, {-34, -46, -56}},
    {"ef", 0, {-10, -14, -18}},
    {"fg", 0, {-4, -6, -8}},
    {"r", 0, {10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132}},
    {"s", 0, {14, 19,  23,  28,  28,  35,  35,  43,  43,  53,  59,  71, 79,
              92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252}},
    {"t", 30, {0,   0,   0,   0,   0,   0,   41,  48,  54,  66,  75,  91, 104,
               122, 134, 146, 166, 180, 196, 218, 240, 268, 294, 330, 360}},
    {"u", 14, {18,  23,  28,  33,  33,  41,  48,  60,  70,  87,  102, 124, 144,
               170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540}},
    {"v", 0, {0,   0,   0,   0,   39,  47,  55,  68,  81,  102, 120, 146, 172,
              202, 228, 252, 284, 310, 340, 385, 425, 475, 530, 595, 660}},
    {"x", 14, {20,  28,  34,  40,  45,  54,  64,  80,  97,  122, 146, 178, 210,
               248, 280, 310, 350, 385, 425, 475, 525, 590, 660, 740, 820}},
    {"y", 0, {0,   0,   0,   0,   0,   63,  75,  94,  114, 144, 174, 214, 254,
              300, 340, 380, 425, 470, 520, 580, 650, 730, 820, 920, 1000}},
    {"z", 14, {26,  35,  42,  50,  60,  73,  88,  112, 136, 172,  210,  258, 310,
               365, 415, 465, 520, 575, 640, 710, 790, 900, 1000, 1100, 1250}},
    {"za", 10, {32,  42,  52,  64,  77,  98,  118, 148,  180,  226,  274,  335, 400,
                470, 535, 600, 670, 740, 820, 920, 1000, 1150, 1300, 1450, 1600}},
    {"zb", 6, {40,  50,  67,  90,  108, 136,  160,  200,  242,  300,  360,  445, 525,
               620, 700, 780, 880, 960, 1050, 1200, 1300, 1500, 1650, 1850, 2100}},
    {"zc", 6, {60,  80,  97,   130,  150,  188,  218,  274,  325,  405,  480,  585, 690,
               800, 900, 1000, 1150, 1250, 1350, 1550, 1700, 1900, 2100, 2400, 2600}},
};

constexpr short kShaftJ[3][kMainEnds.size()] = {{-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20},
                                                {-4, -4, -5, -6, -8, -10, -12, -15, -18, -21, -26, -28, -32},
                                                {-6}};
constexpr short kHoleJ[3][kMainEnds.size()] = {{2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33},
                                               {4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43},
                                               {6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66}};

// Index of the first end that is not below the size.
template <std::size_t n>
std::optional<std::size_t> stepOf(const std::array<double, n>& ends, double sizeMm) {
    if (!(sizeMm > 0) || sizeMm > ends.back()) return std::nullopt;
    return static_cast<std::size_t>(std::lower_bound(ends.begin(), ends.end(), sizeMm) - ends.begin());
}

std::optional<double> unlessNone(short um) {
    return um != 0 ? std::optional<double>(um) : std::nullopt;
}

}  // namespace

std::optional<TabledDeviation> tabledDeviation(std::string_view letter, double sizeMm) {
    const auto row =
        std::find_if(std::begin(kLetters), std::end(kLetters), [letter](const Letter& l) { return l.name == letter; });
    const auto step = stepOf(kEnds, sizeMm);
    if (row == std::end(kLetters) || !step || row->um[*step] == 0) return std::nullopt;
    if ((letter == "a" || letter == "b") && sizeMm <= 1) return std::nullopt;
    return TabledDeviation{static_cast<double>(row->um[*step]), sizeMm <= row->fromMemoryUpTo};
}

std::optional<double> shaftJ(double sizeMm, int grade) {
    const auto step = stepOf(kMainEnds, sizeMm);
    if (!step || grade < 5 || grade > 8) return std::nullopt;
    return unlessNone(kShaftJ[grade <= 6 ? 0 : grade - 6][*step]);
}

std::optional<double> holeJ(double sizeMm, int grade) {
    const auto step = stepOf(kMainEnds, sizeMm);
    if (!step || grade < 6 || grade > 8) return std::nullopt;
    return unlessNone(kHoleJ[grade - 6][*step]);
}

}  // namespace firstoff
