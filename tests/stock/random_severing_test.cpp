// Random programs with several tools, cut by the history (batches, slabs, threads) and, as a second method, move by
// move with a look at everything after each: the same pieces must fall at the same moves.
#include <gtest/gtest.h>

#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/cut_plan.h"
#include "sim/stock/history.h"
#include "sim/stock/loose_pieces.h"
#include "sim/stock/sweep_profile.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

firstoff::Setup shopFloor(bool tube) {
    firstoff::Setup setup = shop::barStock(30, 20, 1, tube ? 12 : 0);
    shop::addTurningTool(setup, 1, 'D', 0.8, 93);
    // Left hand: its slivers hang on from the right.
    Tool& left = shop::addTurningTool(setup, 2, 'D', 0.4, 93);
    left.tipNumber = 4;
    left.cutting = toolOutline(left);
    shop::addGroovingTool(setup, 3, 2, 0.2);
    // A blade for face grooves, open to the front.
    shop::addGroovingTool(setup, 4, 2, 0).cutting =
        roundedPolygon({{0, 0}, {25, 0}, {25, 1.5}, {0, 1.5}}, {0, 0, 0, 0});
    shop::addBoringBar(setup, 5, 'C', 0.4);
    return setup;
}

shop::TipPath randomProgram(const firstoff::Setup& setup, shop::Dice& dice, int moves) {
    shop::TipPath path(setup);
    for (int i = 0; i < moves;) {
        const int station = 1 + static_cast<int>(dice.below(5));
        path.tool(station).at(2 * dice.between(6, 17), dice.between(28, 52));
        for (std::uint32_t run = 2 + dice.below(5); run > 0; --run, ++i) {
            const double x = 2 * dice.between(station == 3 ? -1 : 1, 17);
            const double z = dice.between(station == 4 ? 34 : 28, 52);
            if (dice.below(2) == 0) {
                path.feed(x, z);
            } else {
                path.feed(x, path.tipZ()).feed(path.tipX(), z);
            }
        }
    }
    return path;
}

TEST(RandomSevering, SamePiecesAtTheSameMovesAsMoveByMove) {
    int pieces = 0;
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
        shop::Dice dice(seed);
        const firstoff::Setup setup = shopFloor(seed % 2 == 0);
        const shop::TipPath path = randomProgram(setup, dice, 25);
        HistoryOptions options;
        options.threads = 1 + static_cast<int>(seed % 3);
        options.pitchMm = 0.004;
        const auto history = StockHistory::cut(path.timeline(), path.toolpath(), setup, options);

        const CutPlan plan(path.timeline(), path.toolpath(), setup);
        Billet billet(setup.stock, options.pitchMm);
        std::vector<std::uint32_t> fell;
        std::vector<std::uint64_t> after{billet.hash()};
        StockCursor cursor(history);
        for (std::uint32_t move = 0; move < plan.moves(); ++move) {
            Billet inside = billet;
            inside.cut(firstPart(plan.sweep(move), 0.37), plan.shapes(move).front(), move);
            cursor.seek(move, 0.37);
            EXPECT_EQ(cursor.hash(), inside.hash()) << seed << " inside " << move;
            billet.cut(plan.sweep(move), plan.shapes(move).front(), move);
            for (const LoosePiece& piece : takeLoose(billet, plan.heldZ())) {
                if (piece.volumeMm3 > 1) fell.push_back(move);
            }
            after.push_back(billet.hash());
        }
        std::vector<std::uint32_t> inHistory;
        for (const Severance& s : history->severances()) {
            if (s.volumeMm3 > 1) inHistory.push_back(s.timedMove);
        }
        EXPECT_EQ(inHistory, fell) << seed;
        cursor.seek(path.moves(), 0);
        EXPECT_EQ(cursor.hash(), billet.hash()) << seed;
        for (int i = 0; i < 10; ++i) {
            const std::uint32_t move = dice.below(path.moves() + 1);
            cursor.seek(move, dice.fraction());
            cursor.seek(move, 0);
            EXPECT_EQ(cursor.hash(), after[move]) << seed << " at " << move;
        }
        EXPECT_EQ(history->endVolumeMm3(), billet.volumeMm3()) << seed;
        pieces += static_cast<int>(fell.size());
    }
    // The programs must be such that something falls, or the test says nothing.
    EXPECT_GT(pieces, 100);
}

}  // namespace
}  // namespace firstoff
