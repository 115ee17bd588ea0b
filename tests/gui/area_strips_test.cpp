// Filling and hatching of sections. Areas by the shoelace formula (common practice, no source).
#include "gui/section/area_strips.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace firstoff::gui {
namespace {

double areaOf(const PlaneLoop& loop) {
    double twice = 0;
    for (std::size_t i = 0; i < loop.size(); ++i) twice += cross(loop[i], loop[(i + 1) % loop.size()]);
    return std::abs(twice) / 2;
}

double areaOf(const std::vector<AreaStrip>& strips) {
    double area = 0;
    for (const AreaStrip& s : strips) area += (s.z1 - s.z0) * (s.high0 - s.low0 + s.high1 - s.low1) / 2;
    return area;
}

double lengthOf(const std::vector<std::pair<Point, Point>>& lines) {
    double sum = 0;
    for (const auto& [a, b] : lines) sum += distance(a, b);
    return sum;
}

const PlaneLoop kStep{{0, 5}, {40, 5}, {40, 12}, {39, 13}, {25, 13}, {25, 20}, {0, 20}};
const PlaneLoop kHole{{4, 8}, {10, 8}, {10, 14}, {4, 14}};
const PlaneLoop kBeside{{60, 0}, {72, 0}, {66, 9}};

TEST(AreaStrips, FillWhatLiesInside) {
    EXPECT_NEAR(areaOf(stripsOf({kStep})), areaOf(kStep), 1e-9);
    EXPECT_NEAR(areaOf(stripsOf({kStep, kHole})), areaOf(kStep) - areaOf(kHole), 1e-9);
    EXPECT_NEAR(areaOf(stripsOf({kStep, kBeside})), areaOf(kStep) + areaOf(kBeside), 1e-9);
    EXPECT_TRUE(stripsOf({}).empty());
    EXPECT_TRUE(stripsOf({{{0, 0}, {1, 0}}}).empty() || areaOf(stripsOf({{{0, 0}, {1, 0}}})) == 0);
}

// Star-shaped loops of any number of corners, round a hole or not.
RC_GTEST_PROP(AreaStrips, FillAnyLoop, ()) {
    const int corners = *rc::gen::inRange(3, 40);
    PlaneLoop loop;
    for (int i = 0; i < corners; ++i) {
        const double radius = *rc::gen::inRange(10, 1000) / 100.0, angle = 2 * M_PI * i / corners;
        loop.push_back({50 + radius * std::cos(angle), 20 + radius * std::sin(angle)});
    }
    RC_ASSERT(std::abs(areaOf(stripsOf({loop})) - areaOf(loop)) < 1e-8);
}

// As many lines as the area is wide: length times spacing is the area, as finely as the spacing.
TEST(Hatching, CoversTheAreaEvenly) {
    const double apart = 0.01, area = areaOf(kStep) - areaOf(kHole);
    const auto lines = hatching({kStep, kHole}, apart);
    // The trapezoid rule over lines so near to each other: off by less than a line's length at every end.
    EXPECT_NEAR(lengthOf(lines) * apart, area, 40 * apart);
    for (const auto& [a, b] : lines) {
        EXPECT_NEAR(b.r - a.r, b.z - a.z, 1e-9);  // at 45 degrees
        EXPECT_NEAR(std::remainder((a.z - a.r) / std::sqrt(2.0), apart), 0, 1e-9);
    }
}

TEST(Hatching, GivesUpWhereNobodyCouldSeeLines) {
    EXPECT_TRUE(hatching({kStep}, 1e-6).empty());
    EXPECT_TRUE(hatching({kStep}, 0).empty());
}

}  // namespace
}  // namespace firstoff::gui
