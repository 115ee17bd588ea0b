// Tools that are not convex leave what all their parts leave.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// Diameter of the hole at a work Z, at the end.
double holeAt(const Trial& trial, double workZ) {
    StockCursor cursor(trial.stock);
    cursor.seek(static_cast<std::uint32_t>(trial.timeline.moves.size()), 0);
    return 2 * cursor.outermostAt(workZ + trial.setup.workOffsets[0].z).inner;
}

Tool& add(firstoff::Setup& setup, ToolKind kind, double diameter, std::vector<DrillStep> steps, double flute) {
    Tool& tool = shop::addDrill(setup, 1, diameter);
    tool.kind = kind;
    tool.drillSteps = std::move(steps);
    tool.fluteLength = flute;
    giveShape(tool);
    return tool;
}

// 0.01: half a column of 2 µm on a slope of 45° is 0.002 on the diameter, on a point of 118° 0.007.
TEST(SteppedTools, AStepDrillBoresAllItsDiameters) {
    auto setup = shop::barStock(40, 60, 0);
    add(setup, ToolKind::StepDrill, 8, {{12, 6, radians(90)}, {20, 9, kPi}}, 45);
    const auto trial =
        shop::run("G21 G40 G99\nG97 S800 M03\nT0101\nG00 X0 Z3.\nG01 Z-30. F.1\nG00 Z5.\nG28 U0 W0\nM30\n", setup);
    struct Row {
        double z, diameter;
    };
    // The point stands at -30: its cone ends at -27.597, the 90° step runs from -18 to -16, the flat one stands at -10.
    for (const Row& row : {Row{-29, 2 * std::tan(radians(59))},
                           {-27, 8},
                           {-18.01, 8},
                           {-17, 10},
                           {-15.99, 12},
                           {-10.01, 12},
                           {-9.99, 18},
                           {-1, 18}}) {
        EXPECT_NEAR(holeAt(*trial, row.z), row.diameter, 0.01) << row.z;
    }
    EXPECT_EQ(shop::foundInTheCut(*trial), "");
}

// ISO 866 A 3.15 (from memory): pilot 3.9 long, a cone of 60° behind it.
TEST(SteppedTools, ACentreDrillLeavesItsCone) {
    auto setup = shop::barStock(40, 60, 0);
    add(setup, ToolKind::CentreDrill, 3.15, {{3.9, 4, radians(60)}}, 12);
    const auto trial =
        shop::run("G21 G40 G99\nG97 S800 M03\nT0101\nG00 X0 Z3.\nG01 Z-6.5 F.05\nG00 Z5.\nG28 U0 W0\nM30\n", setup);
    EXPECT_NEAR(holeAt(*trial, -4), 3.15, 0.01);
    EXPECT_NEAR(holeAt(*trial, -1), 3.15 + 2 * 1.6 * std::tan(radians(30)), 0.01);
}

}  // namespace
}  // namespace firstoff
