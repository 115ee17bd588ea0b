// How near an edge comes to metal on a straight way, against distances known by hand.
#include "sim/output/sheets/edge_gap.h"

#include <gtest/gtest.h>

#include <cmath>

namespace firstoff {
namespace {

// Chords of arcs, and what is taken off for them: 0.005 mm each way.
constexpr double kChords = 0.011;

// A blade 3 wide and 10 high with its left corner as its tip.
Tool blade() {
    Tool tool;
    tool.cutting = roundedPolygon({{0, 0}, {3, 0}, {3, 10}, {0, 10}}, {0, 0, 0, 0});
    return tool;
}

std::vector<Loop> bar(double z0, double z1, double r0, double r1) {
    return {{0, {{z0, r0}, {z1, r0}, {z1, r1}, {z0, r1}}, {kUncut, kUncut, kUncut, kUncut}}};
}

struct Way {
    const char* name;
    Point from, to;
    double gap;
};
class EdgeGap : public testing::TestWithParam<Way> {};

TEST_P(EdgeGap, IsTheDistanceByHand) {
    const double gap = edgeGap(blade(), GetParam().from, GetParam().to, bar(0, 50, 0, 20));
    EXPECT_NEAR(gap, GetParam().gap, kChords);
    EXPECT_LE(gap, GetParam().gap);  // never told too large
}

INSTANTIATE_TEST_SUITE_P(
    Table, EdgeGap,
    testing::Values(Way{"stands above", {10, 25}, {10, 25}, 5}, Way{"passes over", {80, 22}, {-80, 22}, 2},
                    Way{"stops short of the face", {90, 5}, {52, 5}, 2},
                    // Past the corner of the bar at (50, 20), on the diagonal: (52 + 54 - 70) / sqrt 2 from it.
                    Way{"slants past the corner", {52, 54}, {86, 20}, 36 / std::sqrt(2.0)},
                    Way{"cuts through", {25, 60}, {25, 10}, 0}, Way{"stands within", {20, 2}, {20, 2}, 0},
                    Way{"goes right through", {90, 5}, {-90, 5}, 0}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(EdgeGapOfNothing, IsInfinite) {
    EXPECT_TRUE(std::isinf(edgeGap(blade(), {0, 0}, {0, 0}, {})));
    EXPECT_TRUE(std::isinf(edgeGap(Tool{}, {0, 0}, {0, 0}, bar(0, 50, 0, 20))));
}

}  // namespace
}  // namespace firstoff
