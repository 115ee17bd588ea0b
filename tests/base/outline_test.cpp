#include "sim/base/outline.h"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"

namespace firstoff {
namespace {

double area(const std::vector<Point>& polygon) {
    double twice = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) twice += cross(polygon[i], polygon[(i + 1) % polygon.size()]);
    return twice / 2;
}

// Rounding one corner of a square with radius R takes off R² (1 - pi/4): elementary geometry.
TEST(RoundedPolygon, LosesTheCornerAreaOfElementaryGeometry) {
    const std::vector<Point> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
    const double radius = 0.8;
    const Outline outline = roundedPolygon(square, {radius, 0, 0, 0});
    // Chords within 1e-6 mm of an arc of 1.26 mm leave less than 1.3e-6 mm² uncounted.
    EXPECT_NEAR(area(polyline(outline, 1e-6)), 100 - radius * radius * (1 - kPi / 4), 1.3e-6);
}

TEST(RoundedPolygon, BoxOfARoundedCornerTouchesTheEdgesOfTheSharpOne) {
    const Outline outline = roundedPolygon({{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {2, 2, 2, 2});
    const Box box = boundingBox(outline);
    // Rounding of sums of numbers up to 10.
    EXPECT_NEAR(box.zMin, 0, 1e-14);
    EXPECT_NEAR(box.zMax, 10, 1e-14);
    EXPECT_NEAR(box.rMin, 0, 1e-14);
    EXPECT_NEAR(box.rMax, 10, 1e-14);
}

TEST(RoundedPolygon, ARhombusTipReachesBeyondItsTangentPoints) {
    // A 35 degree tip pointing at -r: the lowest point is the bottom of the nose arc, not a tangent point.
    const double half = radians(17.5);
    const double side = 10;
    const std::vector<Point> tip{{0, 0}, {side * std::sin(half), side * std::cos(half)},
                                 {-side * std::sin(half), side * std::cos(half)}};
    const double radius = 0.4;
    const Box box = boundingBox(roundedPolygon(tip, {radius, 0, 0}));
    EXPECT_NEAR(box.rMin, radius / std::sin(half) - radius, 1e-12);
}

}  // namespace
}  // namespace firstoff
