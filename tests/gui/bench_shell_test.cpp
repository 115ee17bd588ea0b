#include "gui/bench_shell.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "sim/control/toolpath.h"
#include "tests/gui/picture_job.h"
#include "tests/support/shop.h"

namespace firstoff::gui {
namespace {

// The job of many moves is what it says: so many moves at feed, none of them refused.
TEST(Bench, MakesAJobOfSoManyMoves) {
    for (const int moves : {1, 4000, 9000}) {
        const Program program = readProgram(manyMovesProgram(moves), "many-moves.nc");
        firstoff::Setup setup = shop::barStock(50, 90, 1);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        const Toolpath path = interpret(program, setup);
        const auto fed = std::count_if(path.moves.begin(), path.moves.end(),
                                       [](const Move& move) { return move.kind == MoveKind::Feed; });
        EXPECT_EQ(fed, moves);
    }
}

}  // namespace
}  // namespace firstoff::gui
