// Classes of ISO 286 and grades of ISO 2768-1 against published tables.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "sim/inspection/iso_2768.h"
#include "sim/inspection/iso_286.h"
#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

// Both ends of a step of the table, and between: all must give the row.
std::vector<double> sizesOf(const shop::ReferenceRow& row) {
    const double over = *row.number("over_mm");
    const double upTo = row.number("up_to_mm").value_or(2 * over);
    return {over + 1e-6, (over + upTo) / 2, upTo};
}

// Every row of the table, those from memory too (its status column says which were opened): exactly, to the rounding
// of a double. Formula and table differ in four places: IT6 of 3 to 6 mm is 7.33 µm by formula and 8 in the table, IT7
// of 6 to 10 mm 14.4 and 15, IT7 of 10 to 18 mm 17.3 and 18: so IT6 and IT7 are rounded up to 18 mm. IT9 of 3 to 6 mm
// is 29.3 and 30, which no rule of rounding gives together with its neighbours: it stands as a departure in the code.
TEST(Iso286, GivesTheLimitsOfTheTables) {
    int opened = 0, others = 0;
    for (const shop::ReferenceRow& row : shop::referenceRows("tolerances.csv")) {
        if (row.text("kind") != "iso286") continue;
        ++(row.text("status") == "opened" ? opened : others);
        for (double size : sizesOf(row)) {
            std::string why;
            const auto deviations = classDeviations(size, row.text("class"), why);
            ASSERT_TRUE(deviations) << row.text("class") << ' ' << size << ": " << why;
            EXPECT_NEAR(1000 * deviations->lower, *row.number("lower_um"), 1e-9) << row.text("class") << ' ' << size;
            EXPECT_NEAR(1000 * deviations->upper, *row.number("upper_um"), 1e-9) << row.text("class") << ' ' << size;
        }
    }
    EXPECT_EQ(opened, 74);
    EXPECT_EQ(others, 10);
}

TEST(Iso286, GivesTheStandardTolerancesOfTheTables) {
    int rows = 0;
    for (const shop::ReferenceRow& row : shop::referenceRows("tolerances.csv")) {
        if (row.text("kind") != "iso286_IT") continue;
        ++rows;
        const int grade = std::stoi(row.text("class").substr(2));
        for (double size : sizesOf(row)) {
            const auto width = standardTolerance(size, grade);
            ASSERT_TRUE(width);
            EXPECT_NEAR(1000 * *width, *row.number("upper_um"), 1e-9) << row.text("class") << ' ' << size;
        }
    }
    EXPECT_EQ(rows, 28);
}

struct Width {
    double size;
    std::vector<double> um;  // from IT5 on
};

// ISO 286-1, table 1, from memory.
TEST(Iso286, GivesTheStandardTolerancesOfTheWholeTable) {
    const Width kTable[] = {{2, {4, 6, 10, 14, 25, 40, 60, 100, 140, 250, 400, 600, 1000, 1400}},
                            {5, {5, 8, 12, 18, 30, 48, 75, 120, 180, 300, 480, 750, 1200, 1800}},
                            {8, {6, 9, 15, 22, 36, 58, 90, 150, 220, 360, 580, 900, 1500, 2200}},
                            {15, {8, 11, 18, 27, 43, 70, 110, 180, 270, 430, 700, 1100, 1800, 2700}},
                            {25, {9, 13, 21, 33, 52, 84, 130, 210, 330, 520, 840, 1300, 2100, 3300}},
                            {40, {11, 16, 25, 39, 62, 100, 160, 250, 390, 620, 1000, 1600, 2500, 3900}},
                            {60, {13, 19, 30, 46, 74, 120, 190, 300, 460, 740, 1200, 1900, 3000, 4600}},
                            {100, {15, 22, 35, 54, 87, 140, 220, 350, 540, 870, 1400, 2200, 3500, 5400}},
                            {150, {18, 25, 40, 63, 100, 160, 250, 400, 630, 1000, 1600, 2500, 4000, 6300}},
                            {200, {20, 29, 46, 72, 115, 185, 290, 460, 720, 1150, 1850, 2900, 4600, 7200}},
                            {300, {23, 32, 52, 81, 130, 210, 320, 520, 810, 1300, 2100, 3200, 5200, 8100}},
                            {350, {25, 36, 57, 89, 140, 230, 360, 570, 890, 1400, 2300, 3600, 5700, 8900}},
                            {450, {27, 40, 63, 97, 155, 250, 400, 630, 970, 1550, 2500, 4000, 6300, 9700}}};
    for (const Width& row : kTable) {
        for (std::size_t i = 0; i < row.um.size(); ++i) {
            const int grade = 5 + static_cast<int>(i);
            EXPECT_NEAR(1000 * standardTolerance(row.size, grade).value_or(0), row.um[i], 1e-9)
                << "IT" << grade << ' ' << row.size;
        }
    }
}

struct Fit {
    const char* fit;
    double size, lowerUm, upperUm;
};

// Limits of ISO 286-2, from memory: what mirrors, what is raised, what starts at zero, and the ends of the range.
TEST(Iso286, GivesHolesAndShaftsOfOtherLetters) {
    const Fit kFits[] = {{"K7", 25, -15, 6},   {"M7", 25, -21, 0},     {"N7", 25, -28, -7},   {"P7", 25, -35, -14},
                         {"K6", 25, -11, 2},   {"N9", 25, -52, 0},     {"P9", 25, -74, -22},  {"JS7", 25, -10.5, 10.5},
                         {"F8", 40, 25, 64},   {"G7", 40, 9, 34},      {"D10", 40, 80, 180},  {"E9", 40, 50, 112},
                         {"H11", 40, 0, 160},  {"d9", 60, -174, -100}, {"e8", 60, -106, -60}, {"n6", 60, 20, 39},
                         {"p6", 60, 32, 51},   {"n6", 100, 23, 45},    {"p6", 25, 22, 35},    {"k5", 25, 2, 11},
                         {"k8", 25, 0, 33},    {"g6", 2, -8, -2},      {"k6", 2, 0, 6},       {"n6", 2, 4, 10},
                         {"K7", 2, -10, 0},    {"H7", 450, 0, 63},     {"h14", 120, -870, 0}, {"f7", 200, -96, -50},
                         {"M6", 300, -41, -9}, {"e8", 350, -214, -125}};
    for (const Fit& row : kFits) {
        std::string why;
        const auto deviations = classDeviations(row.size, row.fit, why);
        ASSERT_TRUE(deviations) << row.fit << ": " << why;
        EXPECT_NEAR(1000 * deviations->lower, row.lowerUm, 1e-9) << row.fit << ' ' << row.size;
        EXPECT_NEAR(1000 * deviations->upper, row.upperUm, 1e-9) << row.fit << ' ' << row.size;
    }
}

struct Refused {
    const char* fit;
    double size;
    const char* says;
};

TEST(Iso286, SaysWhyAClassIsNotReckoned) {
    const Refused kRefused[] = {{"t6", 20, "not reckoned"},   {"q6", 25, "not reckoned"},
                                {"h", 25, "no class"},        {"7h", 25, "no class"},
                                {"Hh7", 25, "no class"},      {"h77", 25, "grades 5 to 18"},
                                {"h3", 25, "grades 5 to 18"}, {"h7", 501, "up to 500"},
                                {"h7", 0, "up to 500"},       {"K9", 25, "not reckoned"},
                                {"", 25, "no class"},         {"h7x", 25, "no class"},
                                {"b9", 1, "not reckoned"},    {"ab7", 25, "not reckoned"},
                                {"j9", 25, "not reckoned"},   {"cd7", 20, "give the deviations"},
                                {"J5", 25, "not reckoned"},   {"j8", 25, "not reckoned"}};
    for (const Refused& row : kRefused) {
        std::string why;
        EXPECT_FALSE(classDeviations(row.size, row.fit, why)) << row.fit;
        EXPECT_NE(why.find(row.says), std::string::npos) << row.fit << ": " << why;
    }
}

// Every row, opened or from memory.
TEST(Iso2768, GivesTheTablesOfTheStandard) {
    int rows = 0;
    for (const shop::ReferenceRow& row : shop::referenceRows("tolerances.csv")) {
        const std::string& kind = row.text("kind");
        if (!kind.starts_with("iso2768")) continue;
        ++rows;
        const char grade = row.text("class").front();
        const double um = *row.number("upper_um");
        EXPECT_EQ(*row.number("lower_um"), -um);
        for (double size : sizesOf(row)) {
            if (kind == "iso2768_angle_arcmin") {
                EXPECT_NEAR(60 * degrees(generalAngle(grade, size == 0 ? 1 : size).value_or(0)), um, 1e-9);
            } else if (kind == "iso2768_linear") {
                EXPECT_NEAR(1000 * generalLengthMm(grade, size).value_or(0), um, 1e-9) << grade << ' ' << size;
            } else {
                ASSERT_EQ(kind, "iso2768_radius_chamfer");
                EXPECT_NEAR(1000 * generalRoundingMm(grade, size).value_or(0), um, 1e-9) << grade << ' ' << size;
            }
        }
    }
    EXPECT_EQ(rows, 62);
    EXPECT_FALSE(generalLengthMm('v', 2)) << "the table has none";
    EXPECT_FALSE(generalLengthMm('m', 0.4));
    EXPECT_FALSE(generalLengthMm('f', 2500));
    EXPECT_TRUE(generalLengthMm('m', 0.5));
}

}  // namespace
}  // namespace firstoff
