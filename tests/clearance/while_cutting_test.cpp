// The gap between a holder and the metal that its own edge is taking off, held against small steps: at each the billet
// as it is there and the holder where it stands.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/clearance/clearance.h"
#include "sim/clearance/nearness.h"
#include "sim/stock/history.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kStepMm = 0.05;
constexpr double kStatedMm = 0.05;  // what gaps may be told too small by

double bySteps(const std::shared_ptr<const StockHistory>& stock, const TimedMove& timed, const Tool& tool,
               std::uint32_t index) {
    StockCursor cursor(stock);
    const double length = distance(timed.from, timed.to) * 1.6;  // an arc is no longer than that, up to a quarter turn
    const int steps = std::max(1, static_cast<int>(std::ceil(length / kStepMm)));
    double least = std::numeric_limits<double>::infinity();
    for (int i = 0; i <= steps; ++i) {
        const double fraction = double(i) / steps;
        cursor.seek(index, fraction);
        const Placing at = Placing::at(pointAt(timed, fraction) + tool.tip);
        least = std::min(least, nearnessInPlane(cursor.billet(), tool.holder, at).gap);
    }
    return least;
}

// Facing, turning, tapers both ways and arcs, at random depths of cut, outside; a D60 bar.
TEST(HolderWhileCutting, AgreesWithSmallSteps) {
    int compared = 0, differs = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        SCOPED_TRACE(seed);
        shop::Dice dice(seed);
        auto setup = shop::barStock(60, 60, 0);
        setup.turret.reset();  // the tool alone
        Tool& tool = shop::addTurningTool(setup, 1, 'C', 0.8);
        const double front = setup.stock.frontZ;
        shop::TipPath path(setup);
        path.tool(1).at(70, front + 5).turning(SpindleDirection::Forward, 1000);
        const double x = 60 - 2 * dice.between(0.5, 5);
        switch (dice.below(4)) {
            case 0:
                path.rapid(x, front + 2).feed(x, front - dice.between(5, 25));
                break;
            case 1:
                path.rapid(66, front - dice.between(0.3, 4)).feed(dice.between(10, 50), path.tipZ());
                break;
            case 2:
                path.rapid(x, front + 1).feed(x + dice.between(0, 8), front - dice.between(8, 20));
                break;
            default: {
                const double radius = dice.between(3, 9);
                path.rapid(x - 2 * radius, front + 1).feed(x - 2 * radius, front - 1);
                path.clockwise(x, front - 1 - radius, x - 2 * radius, front - 1 - radius);
            }
        }
        const auto stock = StockHistory::cut(path.timeline(), path.toolpath(), setup);
        const ClearanceResult result = checkClearances(path.timeline(), path.toolpath(), setup, stock);
        for (std::uint32_t i = 0; i < path.moves(); ++i) {
            const Clearance& c = result.perMove[i];
            if (c.other != 0 || result.bodies->bodies[c.body].kind != BodyKind::Holder) continue;
            if (stock->cuts()[i].removedMm3 <= 0) continue;
            const double stepped = bySteps(stock, path.timeline().moves[i], tool, i);
            EXPECT_LE(double{c.gapMm}, stepped + 1e-3) << "move " << i;
            EXPECT_GE(double{c.gapMm}, stepped - kStatedMm) << "move " << i;
            ++compared;
            // What stands before the move would have told less.
            StockCursor before(stock);
            before.seek(i, 0);
            const TimedMove& timed = path.timeline().moves[i];
            const Placing whole = Placing::along(timed.from + tool.tip, timed.to + tool.tip);
            differs += nearnessInPlane(before.billet(), tool.holder, whole).gap < stepped - 0.1;
        }
    }
    EXPECT_GT(compared, 25);
    EXPECT_GT(differs, 5);
}

}  // namespace
}  // namespace firstoff
