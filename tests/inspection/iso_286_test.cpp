// Classes of ISO 286 whose deviations stand in tables, against the formulas that the standard forms them by.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string>
#include <vector>

#include "sim/inspection/iso_286.h"
#include "sim/inspection/iso_286_deviations.h"

namespace firstoff {
namespace {

constexpr double kFineEnds[] = {1,   3,   6,   10,  14,  18,  24,  30,  40,  50,  65,  80,  100,
                                120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500};

double it(double size, int grade) {
    return 1000 * standardTolerance(size, grade).value();
}

// Fundamental deviation of a shaft, µm, unrounded, d: mean of the step that ends at `size`. ISO 286-1:1988, annex A,
// from memory.
double byFormula(const std::string& letter, double size, double d) {
    if (letter == "a") return size <= 120 ? -(265 + 1.3 * d) : -3.5 * d;
    if (letter == "b") return size <= 160 ? -(140 + 0.85 * d) : -1.8 * d;
    if (letter == "c") return size <= 40 ? -52 * std::pow(d, 0.2) : -(95 + 0.8 * d);
    if (letter == "s") return size <= 50 ? it(size, 8) + 2.5 : it(size, 7) + 0.4 * d;
    if (letter == "t") return it(size, 7) + 0.63 * d;
    if (letter == "u") return it(size, 7) + d;
    if (letter == "v") return it(size, 7) + 1.25 * d;
    if (letter == "x") return it(size, 7) + 1.6 * d;
    if (letter == "y") return it(size, 7) + 2 * d;
    if (letter == "z") return it(size, 7) + 2.5 * d;
    if (letter == "za") return it(size, 8) + 3.15 * d;
    if (letter == "zb") return it(size, 9) + 4 * d;
    return it(size, 10) + 5 * d;  // zc
}

// A table departs from its formula by its rounding: to preferred numbers of up to 50 µm where it gives 1000, and never
// by more than 5 % or half a micron. That is enough to see a slip by a row, by a column or of a figure. s up to 18 mm
// is rounded to more than that, and held below.
TEST(Iso286, TablesFollowTheFormulasOfTheStandard) {
    int held = 0;
    for (const char* letter : {"a", "b", "c", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc"}) {
        for (std::size_t i = 0; i + 1 < std::size(kFineEnds); ++i) {
            const double size = kFineEnds[i + 1];
            const auto table = tabledDeviation(letter, size);
            const bool coarse = *letter == 's' && size <= 18;
            if (!table || table->fromMemory || coarse) continue;
            const double um = byFormula(letter, size, std::sqrt(kFineEnds[i] * size));
            EXPECT_NEAR(table->um, um, std::max(0.5, 0.05 * std::abs(um))) << letter << ' ' << size;
            ++held;
        }
    }
    EXPECT_EQ(held, 277);
}

// s up to 50 mm: IT8 and 0 to 4 µm. r: mean of p and s, to what rounding all three to a µm makes of it. ISO 286-1:1988,
// annex A, from memory.
TEST(Iso286, SmallSizesOfSAndAllOfRFollowTheirRules) {
    std::string why;
    for (double size : {3.0, 6.0, 10.0, 14.0, 18.0, 24.0, 30.0, 40.0, 50.0}) {
        const double more = tabledDeviation("s", size).value().um - it(size, 8);
        EXPECT_GE(more, 0) << size;
        EXPECT_LE(more, 4) << size;
    }
    for (std::size_t i = 1; i + 1 < std::size(kFineEnds); ++i) {
        const double size = kFineEnds[i + 1];
        const double p = 1000 * classDeviations(size, "p6", why).value().lower;
        const double s = tabledDeviation("s", size).value().um;
        EXPECT_NEAR(tabledDeviation("r", size).value().um, std::sqrt(p * s), 1.2) << size;
    }
}

// Means of their neighbours, ISO 286-1:1988, annex A, from memory: within 1 µm, to which they are rounded.
TEST(Iso286, LettersBetweenOthersAreTheirGeometricMeans) {
    std::string why;
    const auto es = [&](const char* fit, double size) { return -1000 * classDeviations(size, fit, why).value().upper; };
    for (double size : {3.0, 6.0, 10.0}) {
        EXPECT_NEAR(es("cd8", size), std::sqrt(es("c8", size) * es("d8", size)), 1) << size;
        EXPECT_NEAR(es("ef8", size), std::sqrt(es("e8", size) * es("f8", size)), 1) << size;
        EXPECT_NEAR(es("fg8", size), std::sqrt(es("f8", size) * es("g8", size)), 1) << size;
    }
    EXPECT_FALSE(tabledDeviation("cd", 11)) << "left out";
}

struct Fit {
    const char* fit;
    double size, lowerUm, upperUm;
    bool fromMemory;
};

// Limits of ISO 286-2, from memory: raised holes, the ends of the range, and what nothing else holds.
TEST(Iso286, GivesTheRareLetters) {
    const Fit kFits[] = {{"a11", 25, -430, -300, false}, {"b11", 45, -340, -180, false}, {"B11", 130, 260, 510, false},
                         {"c9", 60, -214, -140, false},  {"A11", 5, 270, 345, false},    {"t6", 45, 54, 70, false},
                         {"u6", 25, 48, 61, false},      {"u6", 5, 23, 31, true},        {"x6", 25, 64, 77, false},
                         {"z6", 100, 258, 280, false},   {"zc8", 45, 325, 364, false},   {"za6", 2, 32, 38, true},
                         {"U7", 25, -61, -40, false},    {"T7", 45, -70, -45, false},    {"X7", 15, -56, -38, false},
                         {"P7", 40, -42, -17, false},    {"R6", 25, -37, -24, false},    {"S8", 25, -68, -35, false},
                         {"ZA8", 25, -151, -118, false}, {"j6", 25, -4, 9, true},        {"j7", 60, -12, 18, true},
                         {"J7", 25, -9, 12, true},       {"J6", 25, -5, 8, true},        {"J8", 60, -18, 28, true},
                         {"K5", 25, -8, 1, true},        {"P5", 25, -28, -19, true},     {"N9", 2, -29, -4, false}};
    for (const Fit& row : kFits) {
        std::string why;
        const auto d = classDeviations(row.size, row.fit, why);
        ASSERT_TRUE(d) << row.fit << ": " << why;
        EXPECT_NEAR(1000 * d->lower, row.lowerUm, 1e-9) << row.fit << ' ' << row.size;
        EXPECT_NEAR(1000 * d->upper, row.upperUm, 1e-9) << row.fit << ' ' << row.size;
        EXPECT_EQ(d->fromMemory, row.fromMemory) << row.fit << ' ' << row.size;
    }
}

}  // namespace
}  // namespace firstoff
