// The engaged part of an edge against closed forms.
#include "sim/cutting/engaged_front.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

constexpr Point kAlongZ{-1, 0};
constexpr Point kInwards{0, -1};

Setup bar() {
    return shop::barStock(60, 100);  // lathe z 130 at its front
}

// Half a column (1 µm) of z is all that the billet does not know.
constexpr double kColumnMm = 0.002;

struct Entering {
    char shape;
    double angleDeg, noseRadius;
};

class EnteringAngle : public testing::TestWithParam<Entering> {};

// The area of the chip is depth times feed whatever the angle and the nose, b = depth / sin of it for a sharp one.
TEST_P(EnteringAngle, LeavesTheAreaOfTheChip) {
    const Entering& e = GetParam();
    auto setup = bar();
    const Tool& tool = shop::addTurningTool(setup, 1, e.shape, e.noseRadius, e.angleDeg);
    const Billet billet(setup.stock);
    ToolFront front(tool, 0.2);
    front.face(kAlongZ);
    for (double depth : {0.1, 1.0, 3.0}) {
        const EngagedSection s = front.engagedIn(billet, {100, 30 - depth});
        EXPECT_NEAR(s.across, depth, 1e-6) << depth;
        // A ring of that depth, over 2 pi.
        EXPECT_NEAR(s.moment, (900 - (30 - depth) * (30 - depth)) / 2, 1e-4 * depth * 30) << depth;
        if (e.noseRadius > 0) continue;
        const double sine = std::sin(radians(e.angleDeg));
        EXPECT_NEAR(s.width, depth / sine, 1e-6) << depth;
        EXPECT_NEAR(s.greatest, sine, 1e-9);
        EXPECT_NEAR(s.force, depth / sine * std::pow(sine, 0.8), 1e-6);
        EXPECT_NEAR(s.push.r / s.push.z, std::tan(radians(90 - e.angleDeg)), 1e-9) << "square to the edge";
    }
}

INSTANTIATE_TEST_SUITE_P(EngagedFront, EnteringAngle,
                         testing::Values(Entering{'C', 95, 0}, Entering{'C', 95, 0.8}, Entering{'S', 75, 0},
                                         Entering{'S', 45, 0}, Entering{'S', 45, 1.2}, Entering{'D', 93, 0.4},
                                         Entering{'T', 91, 0.8}, Entering{'V', 72.5, 0.4}));

// A round insert in a cut of depth a: the engaged arc runs from the bottom to where its height is a.
TEST(EngagedFront, OfARoundInsertIsItsArc) {
    auto setup = bar();
    Tool& tool = shop::addTurningTool(setup, 1, 'R', 0, 90);
    tool.noseRadius = tool.edgeLength / 2;
    giveShape(tool);
    const double radius = tool.edgeLength / 2, depth = 1;
    const Billet billet(setup.stock);
    ToolFront front(tool, 0);
    front.face(kAlongZ);
    const EngagedSection s = front.engagedIn(billet, {100, 30 - depth});
    const double angle = std::acos(1 - depth / radius);
    EXPECT_NEAR(s.across, depth, 1e-6);
    EXPECT_NEAR(s.width, radius * angle, 1e-5);
    EXPECT_NEAR(s.greatest, std::sin(angle), 1e-5);
}

// Two lips from the axis to the rim: over 2 pi the whole disc, torque kc f D² / 8 when kc does not depend on the chip.
TEST(EngagedFront, OfADrillIsTheWholeDisc) {
    auto setup = bar();
    const Tool& tool = shop::addDrill(setup, 1, 12, 118);
    const Billet billet(setup.stock);
    ToolFront front(tool, 0);
    front.face(kAlongZ);
    const EngagedSection s = front.engagedIn(billet, {100, 0});
    const double sine = std::sin(radians(59));
    EXPECT_NEAR(s.across, 6, 1e-6);
    EXPECT_NEAR(2 * s.moment, 36, 1e-4);
    EXPECT_NEAR(s.torque, 18, 1e-4) << "int r c db";
    EXPECT_NEAR(s.width, 6 / sine, 1e-5);
    EXPECT_NEAR(s.greatest, sine, 1e-9);
    // Half in the hole that a smaller drill left.
    Billet drilled = billet;
    const Tool pilot = shop::addDrill(setup, 2, 6, 118);
    drilled.cut({{140, 0}, {90, 0}, {}, Sweep::Path::Line}, toolShape(pilot.cutting), 0);
    EXPECT_NEAR(front.engagedIn(drilled, {100, 0}).across, 3, 1e-6);
    EXPECT_NEAR(2 * front.engagedIn(drilled, {100, 0}).moment, 36 - 9, 1e-4);
}

// Steps count once: what the step has in front of it is the drill's own.
TEST(EngagedFront, OfAStepDrillCountsEveryRingOnce) {
    auto setup = bar();
    Tool& tool = shop::addDrill(setup, 1, 8, 118);
    tool.kind = ToolKind::StepDrill;
    tool.drillSteps = {{15, 6, radians(90)}, {25, 9, kPi}};
    giveShape(tool);
    ASSERT_EQ(tool.steps.size(), 2u);
    const Billet billet(setup.stock);
    ToolFront front(tool, 0);
    front.face(kAlongZ);
    struct Case {
        double depth, reach;
    };
    for (const Case& c : {Case{10, 4}, {20, 6}, {30, 9}}) {
        const EngagedSection s = front.engagedIn(billet, {130 - c.depth, 0});
        EXPECT_NEAR(s.across, c.reach, 1e-5) << c.depth;
        EXPECT_NEAR(2 * s.moment, c.reach * c.reach, 1e-3) << c.depth;
    }
}

TEST(EngagedFront, OfABladeIsItsWidth) {
    auto setup = bar();
    const Tool& tool = shop::addGroovingTool(setup, 1, 3, 0.2);
    const Billet billet(setup.stock);
    ToolFront front(tool, 0.25);
    front.face(kInwards);
    EXPECT_NEAR(front.engagedIn(billet, {100, 29}).across, 3, 1e-6);
    // Half over the end of the bar: a blade's tip is its corner towards the chuck.
    EXPECT_NEAR(front.engagedIn(billet, {128.5, 29}).across, 1.5, kColumnMm);
    EXPECT_EQ(front.engagedIn(billet, {100, 31}).across, 0) << "above the bar";
    front.face({1, 0});
    EXPECT_NEAR(front.engagedIn(billet, {100, 25}).across, 5, 1e-6) << "drawn sideways: as deep as it stands";
}

// At radius r on its face, an edge of height h off centre sees the bar at sqrt(r² + h²).
TEST(EngagedFront, OffCentreHeightReachesTheBarByPythagoras) {
    auto setup = bar();
    Tool& tool = shop::addTurningTool(setup, 1, 'C', 0, 90);
    tool.centreHeight = 0.5;
    const Billet billet(setup.stock);
    ToolFront front(tool, 0);
    front.face(kAlongZ);
    const EngagedSection s = front.engagedIn(billet, {100, 20});
    EXPECT_NEAR(s.across, std::sqrt(900 - 0.25) - 20, 1e-6);
    EXPECT_NEAR(2 * s.moment, 900 - (400 + 0.25), 1e-3) << "the ring between 30 and the root of 20² + 0.5²";
}

// A hexagon: over a turn the mean of what its corners and flats let stand, and the greatest at a corner.
TEST(EngagedFront, OfAHexagonIsTheMeanOfItsTurn) {
    auto setup = bar();
    setup.stock.shape = Stock::Shape::Hexagon;
    setup.stock.acrossFlats = 50;
    setup.stock.outerRadius = 25 / std::cos(kPi / 6);
    const Tool& tool = shop::addTurningTool(setup, 1, 'C', 0, 90);
    const Billet billet(setup.stock, 0, 264);
    ToolFront front(tool, 0);
    front.face(kAlongZ);
    const double r = 20;
    const EngagedSection s = front.engagedIn(billet, {100, r});
    // Area of the hexagon less the disc, over 2 pi.
    const double moment = (2 * std::sqrt(3.0) * 25 * 25 - kPi * r * r) / (2 * kPi);
    EXPECT_NEAR(s.moment, moment, 1e-3 * moment) << "264 sectors";
    EXPECT_NEAR(s.forceMost, setup.stock.outerRadius - r, 1e-3);
    EXPECT_LT(s.force, s.forceMost);
}

}  // namespace
}  // namespace firstoff
