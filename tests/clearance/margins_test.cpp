// How wrong may it be: margins of a job so simple that they are known by hand.
#include <gtest/gtest.h>

#include "sim/clearance/clearance.h"
#include "sim/stock/history.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

// A D50 bar whose face stands at z = 90, jaws from 0 to 30 and out to radius 80. The tool approaches at rapid to 3 mm
// (radius) off the bar and 2 behind its face, and turns to z = 60 at a depth of 1.
struct Job {
    firstoff::Setup setup = shop::barStock(50, 60, 0);
    ClearanceResult result;

    Job() {
        setup.turret.reset();
        shop::addTurningTool(setup, 1, 'C', 0.8);
        shop::TipPath path(setup);
        path.tool(1).at(120, 200).turning(SpindleDirection::Forward, 1000);
        path.rapid(56, 200).rapid(56, 88).feed(48, 88).feed(48, 60).rapid(120, 60).rapid(120, 200);
        const auto stock = StockHistory::cut(path.timeline(), path.toolpath(), setup);
        result = checkClearances(path.timeline(), path.toolpath(), setup, stock);
    }
    const ToolMargins& tool() const { return result.margins.tools.at(0); }
};

// Told on the safe side, by 2 % at most (or a hundredth).
void expectTold(const Margin& margin, double truth) {
    EXPECT_LE(margin.mm, truth + 1e-3);
    EXPECT_GE(margin.mm, truth - 0.01 - 0.021 * truth - 0.005);
}

TEST(Margins, ApproachOutsideTheBarIsItsDistance) {
    const Job job;
    expectTold(job.tool().xSmaller, 3);
    EXPECT_EQ(job.result.bodies->bodies[job.tool().xSmaller.body].kind, BodyKind::Edge);
    EXPECT_EQ(job.tool().xSmaller.other, 0);
    EXPECT_EQ(job.tool().xLarger.mm, kMarginLimit);
    EXPECT_EQ(job.tool().zAway.mm, kMarginLimit);
}

TEST(Margins, TowardsTheChuckItIsTheJaws) {
    const Job job;
    // The edge ends at z = 60, its own corner reaches no further; the jaws stand to 30.
    EXPECT_LE(job.tool().zToward.mm, 30);
    EXPECT_GE(job.tool().zToward.mm, 30 - 0.02 * 30 - 0.1);
    EXPECT_EQ(job.result.bodies->bodies[job.tool().zToward.other].kind, BodyKind::Jaws);
    EXPECT_EQ(job.result.margins.setup.datumToward.mm, job.tool().zToward.mm);
}

TEST(Margins, StickOutCountsTheBlankAlone) {
    const Job job;
    // Further out, the face passes under the tip 3 mm off: nothing is met.
    EXPECT_EQ(job.result.margins.setup.stickOutMore.mm, kMarginLimit);
    EXPECT_EQ(job.result.margins.setup.stickOutLess.mm, kMarginLimit);
}

TEST(Margins, ARapidIntoTheBarLeavesNone) {
    auto setup = shop::barStock(50, 60, 0);
    setup.turret.reset();
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::TipPath path(setup);
    path.tool(1).at(120, 200).turning(SpindleDirection::Forward, 1000);
    path.rapid(44, 200).rapid(44, 85).rapid(120, 85);
    const auto stock = StockHistory::cut(path.timeline(), path.toolpath(), setup);
    const ClearanceResult result = checkClearances(path.timeline(), path.toolpath(), setup, stock);
    EXPECT_EQ(result.margins.tools.at(0).xSmaller.mm, 0);
    EXPECT_EQ(result.margins.tools.at(0).zToward.mm, 0);
}

}  // namespace
}  // namespace firstoff
