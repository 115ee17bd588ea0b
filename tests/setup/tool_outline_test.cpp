#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

double area(const std::vector<Point>& polygon) {
    double twice = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) twice += cross(polygon[i], polygon[(i + 1) % polygon.size()]);
    return twice / 2;
}

struct Case {
    const char* name;
    char shape;
    int tip;
    double kappaDeg;
};

class EveryInsert : public testing::TestWithParam<Case> {};

// Whatever way round: anticlockwise, closed, convex, and the tip-side extremes of the outline lie on the lines through
// the imaginary tip, because that is what the imaginary tip is.
TEST_P(EveryInsert, IsConvexAndTouchesTheLinesThroughItsImaginaryTip) {
    auto setup = shop::lathe();
    Tool tool = shop::addTurningTool(setup, 1, GetParam().shape, 0.8, GetParam().kappaDeg);
    tool.tipNumber = GetParam().tip;
    const Outline outline = toolOutline(tool);
    const auto& e = outline.elements;
    for (std::size_t i = 0; i < e.size(); ++i) {
        const OutlineElement& next = e[(i + 1) % e.size()];
        EXPECT_NEAR(distance(e[i].to, next.from), 0, 1e-9);
    }
    const std::vector<Point> points = polyline(outline, 1e-3);
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Point a = points[i], b = points[(i + 1) % points.size()], c = points[(i + 2) % points.size()];
        EXPECT_GE(cross(b - a, c - b), -1e-9) << "corner " << i;
    }
    EXPECT_GT(area(points), 1.0);
    const Box box = boundingBox(outline);
    const Point side = tipFromNoseCentre(tool.tipNumber);
    if (side.z != 0) {
        EXPECT_NEAR(side.z < 0 ? box.zMin : box.zMax, 0, 1e-9);
    }
    if (side.r != 0) {
        EXPECT_NEAR(side.r < 0 ? box.rMin : box.rMax, 0, 1e-9);
    }
}

INSTANTIATE_TEST_SUITE_P(Ways, EveryInsert,
                         testing::Values(Case{"outside", 'C', 3, 95}, Case{"bore", 'C', 2, 95},
                                         Case{"outside away", 'D', 4, 93}, Case{"bore away", 'D', 1, 93},
                                         Case{"triangle", 'T', 3, 91}, Case{"trigon", 'W', 3, 95},
                                         Case{"sharp pointed", 'V', 3, 93}, Case{"square", 'S', 8, 45},
                                         Case{"round", 'R', 8, 90}),
                         [](const auto& row) {
                             std::string name = row.param.name;
                             for (char& c : name) c = c == ' ' ? '_' : c;
                             return name;
                         });

// Common practice, no source: an 80° insert at 95° leaves 5° to the face and 5° to the diameter behind the nose.
TEST(InsertOutline, RhombicInsertAtNinetyFiveDegreesClearsFaceAndDiameterByFive) {
    auto setup = shop::lathe();
    const Tool& tool = shop::addTurningTool(setup, 1, 'C', 0.8, 95);
    const OutlineElement& trailing = tool.cutting.elements[1];
    const Point t = trailing.to - trailing.from;
    EXPECT_NEAR(degrees(std::atan2(t.r, t.z)), 5, 1e-9);
    const OutlineElement& leading = tool.cutting.elements.back();
    const Point l = leading.from - leading.to;
    EXPECT_NEAR(degrees(std::atan2(l.z, l.r)), 5, 1e-9);
}

TEST(DrillOutline, PointIsOnTheAxisAndTheShoulderWhereThePointAngleSays) {
    auto setup = shop::lathe();
    const Tool& tool = shop::addDrill(setup, 1, 20, 118);
    // Cone height of a drill point: R / tan(half the point angle); elementary geometry.
    EXPECT_NEAR(tool.cutting.elements[0].to.z, 10 / std::tan(radians(59)), 1e-12);
    EXPECT_NEAR(tool.cutting.elements[0].from.z, 0, 1e-12);
}

// A 60° V with a nose of R: at a height h above the bottom of the nose its flanks stand 2 (h + R) tan 30° + … apart;
// elementary: the flanks meet R / sin 30° - R = R below the bottom.
TEST(ThreadingOutline, StandsOnItsNoseBetweenFlanksOfTheThreadAngle) {
    auto setup = shop::lathe();
    for (const bool inside : {false, true}) {
        const Tool& tool = inside ? shop::addInsideThreadingTool(setup, 2) : shop::addThreadingTool(setup, 1);
        const Outline outline = toolOutline(tool);
        const Box box = boundingBox(outline);
        EXPECT_NEAR(inside ? box.rMax : box.rMin, 0, 1e-12);
        EXPECT_NEAR(inside ? -box.rMin : box.rMax, tool.cuttingDepth, 1e-12);
        EXPECT_NEAR(box.zMax - box.zMin, 2 * (tool.cuttingDepth + 0.1) * std::tan(radians(30)), 1e-9);
        EXPECT_NEAR(box.zMax, -box.zMin, 1e-12);
        EXPECT_GT(area(polyline(outline, 1e-3)), 1.0) << "anticlockwise";
        EXPECT_FALSE(holderOutline(tool).empty());
    }
}

TEST(ThreadingOutline, CanHaveAFlatForTrapezoidalThreads) {
    auto setup = shop::lathe();
    Tool tool = shop::addThreadingTool(setup, 1, 30);
    tool.noseRadius = 0;
    tool.width = 1.3;
    const Box box = boundingBox(toolOutline(tool));
    EXPECT_NEAR(box.zMax - box.zMin, 1.3 + 2 * 3 * std::tan(radians(15)), 1e-9);
    tool.noseRadius = 0.15;
    EXPECT_NEAR(boundingBox(toolOutline(tool)).rMin, 0, 1e-12);
}

TEST(TapOutline, TapersToItsCoreOverTheChamfer) {
    auto setup = shop::lathe();
    const Tool& tap = shop::addTap(setup, 1, 12, 1.75);
    const Outline outline = toolOutline(tap);
    EXPECT_NEAR(outline.elements[0].from.r, 6 - 0.61343 * 1.75, 1e-12);  // d3 / 2 of M12, threads.csv: 9.853
    EXPECT_NEAR(2 * outline.elements[0].from.r, 9.853, 0.0005);
    EXPECT_NEAR(boundingBox(outline).rMax, 6, 1e-12);
    EXPECT_NEAR(tapChamferMm(tap), 2.5 * 1.75, 1e-12);
    EXPECT_GT(area(polyline(outline, 1e-3)), 1.0);
}

}  // namespace
}  // namespace firstoff
