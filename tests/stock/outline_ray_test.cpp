// Rays against convex outlines, held against the outline as a polygon of fine chords.
#include "sim/stock/outline_ray.h"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kChordMm = 1e-6;

// Where a ray enters a convex polygon, by clipping it with the line of every edge; nothing: infinity.
double entry(const std::vector<Point>& polygon, Point start, Point along) {
    double in = 0;
    double out = 1e9;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point a = polygon[i];
        const Point d = polygon[(i + 1) % polygon.size()] - a;
        const double side = cross(d, start - a);
        const double gain = cross(d, along);
        if (gain == 0) {
            if (side < 0) return 1e9;
            continue;
        }
        const double way = -side / gain;
        if (gain > 0) in = std::max(in, way);
        if (gain < 0) out = std::min(out, way);
    }
    return in <= out ? in : 1e9;
}

TEST(OutlineRay, MeetsWhatAPolygonOfChordsMeets) {
    auto setup = shop::barStock(50, 50);
    shop::addTurningTool(setup, 1, 'D', 0.8, 93);
    shop::addTurningTool(setup, 2, 'C', 0, 95);
    shop::addGroovingTool(setup, 3, 3, 0.2);
    shop::addDrill(setup, 4, 8);
    shop::Dice dice(11);
    int met = 0;
    for (const Tool& tool : setup.tools) {
        const std::vector<Point> polygon = polyline(tool.cutting, kChordMm);
        const Box box = boundingBox(tool.cutting);
        for (int i = 0; i < 2000; ++i) {
            const Point start{dice.between(box.zMin - 3, box.zMax + 3), dice.between(box.rMin - 3, box.rMax + 3)};
            const double angle = dice.between(0, 2 * kPi);
            const Point along{std::cos(angle), std::sin(angle)};
            const RayHit hit = firstMeeting(tool.cutting, start, along);
            const double expected = entry(polygon, start, along);
            if (hit.element < 0) {
                // A ray may graze an arc where its chords are not.
                EXPECT_GT(expected, 1e8) << tool.station << " ray " << i;
                continue;
            }
            ++met;
            if (expected > 1e8) continue;
            // Chords lie up to kChordMm inside; under a slant of up to a few degrees that is some thirty times as much.
            EXPECT_NEAR(hit.way, expected, 50 * kChordMm) << tool.station << " ray " << i;
        }
    }
    EXPECT_GT(met, 1000);
}

TEST(OutlineRay, ATurnedOutlineHasTheDirectionAsItsAxis) {
    const Outline square = roundedPolygon({{0, 0}, {2, 0}, {2, 1}, {0, 1}}, {0, 0, 0, 0});
    const Outline turned = turnedOutline(square, {0, 1});
    const Box box = boundingBox(turned);
    EXPECT_NEAR(box.zMax, 1, 1e-12);
    EXPECT_NEAR(box.rMin, -2, 1e-12);
    EXPECT_NEAR(box.rMax, 0, 1e-12);
}

}  // namespace
}  // namespace firstoff
