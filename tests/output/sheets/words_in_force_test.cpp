// Which line set what a cut runs at.
#include "sim/output/sheets/words_in_force.h"

#include <gtest/gtest.h>

#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

TEST(WordsInForce, NameTheLineThatSetThem) {
    auto setup = shop::barStock(40, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const auto trial = shop::run(
        "G21 G40 G99\n"    // 1
        "T0101\n"          // 2
        "G50 S2000\n"      // 3
        "G96 S150 M03\n"   // 4
        "G00 X36. Z2.\n"   // 5
        "G01 Z-5. F0.2\n"  // 6
        "Z-10.\n"          // 7
        "X44.\n"           // 8
        "G00 X80. Z50.\n"  // 9
        "M30\n"            // 10
        "G01 X10.\n",      // 11
        std::move(setup));
    const std::vector<WordsInForce> all = wordsInForce(*trial);
    struct Row {
        std::uint32_t line;
        ModalThing thing;
        const char* word;
        std::uint32_t from;  // line; 0: nothing has set it
    };
    const Row kRows[] = {
        {7, ModalThing::Feed, "F0.2", 6},     {7, ModalThing::Speed, "S150", 4},
        {7, ModalThing::SpeedMode, "G96", 4}, {7, ModalThing::Tool, "T0101", 2},
        {7, ModalThing::Movement, "G01", 6},  {5, ModalThing::Movement, "G00", 5},
        {3, ModalThing::Speed, "", 0},        {7, ModalThing::WorkOffset, "", 0},
        {9, ModalThing::Movement, "G00", 9},  {8, ModalThing::Compensation, "G40", 1},
        {11, ModalThing::Feed, "", 0},  // never carried out
    };
    for (const Row& row : kRows) {
        const WordInForce& word = all[row.line - 1][static_cast<std::size_t>(row.thing)];
        EXPECT_EQ(word.word, row.word) << row.line;
        EXPECT_EQ(word.block, row.from == 0 ? kNoBlock : row.from - 1) << row.line;
    }
}

}  // namespace
}  // namespace firstoff
