// What is in force, and the word that set it.
#include "sim/plain_words/modal_origin.h"

#include <gtest/gtest.h>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

constexpr const char* kProgram =
    "G21 G40 G99\n"             // 1
    "G50 S3000\n"               // 2
    "T0101\n"                   // 3
    "G96 S220 M03\n"            // 4
    "G00 X62. Z2. M08\n"        // 5
    "G71 U2.5 R0.5\n"           // 6
    "G71 P10 Q20 U0.6 F0.3\n"   // 7
    "N10 G00 X40.\n"            // 8
    "G01 Z-20. F0.15\n"         // 9
    "N20 X62.\n"                // 10
    "G97 S600\n"                // 11
    "(NOTHING HERE)\n"          // 12
    "G00 G42 X48. Z-10. M05\n"  // 13
    "G01 X47. F0.1\n"           // 14
    "M09\n"                     // 15
    "G40 X50.\n"                // 16
    "M30\n";                    // 17

const Trial& trial() {
    static const auto made = [] {
        auto setup = shop::barStock(60, 80);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        return runTrial(readProgram(kProgram, "cap.nc"), std::move(setup));
    }();
    return *made;
}

// "S220 of line 4", of what is in force in the first move of a line.
std::string origin(ModalField field, std::uint32_t line) {
    const std::vector<Move>& moves = trial().toolpath.moves;
    std::size_t move = 0;
    while (move < moves.size() && moves[move].block != line - 1) ++move;
    const auto found = ModalOrigins(trial()).of(trial(), field, move);
    return found ? found->word + " of line " + std::to_string(trial().program.lineOf(found->block)) : "none";
}

struct Row {
    ModalField field;
    std::uint32_t inLine;
    const char* setBy;
};

class SetBy : public testing::TestWithParam<Row> {};

TEST_P(SetBy, NamesTheWordAndItsLine) {
    EXPECT_EQ(origin(GetParam().field, GetParam().inLine), GetParam().setBy);
}

INSTANTIATE_TEST_SUITE_P(
    ModalOrigin, SetBy,
    testing::Values(Row{ModalField::Clamp, 5, "S3000 of line 2"}, Row{ModalField::Clamp, 14, "S3000 of line 2"},
                    Row{ModalField::Speed, 5, "S220 of line 4"}, Row{ModalField::Speed, 14, "S600 of line 11"},
                    Row{ModalField::Spindle, 5, "M03 of line 4"}, Row{ModalField::Spindle, 14, "M05 of line 13"},
                    Row{ModalField::Coolant, 14, "M08 of line 5"}, Row{ModalField::Coolant, 16, "M09 of line 15"},
                    Row{ModalField::Feed, 14, "F0.1 of line 14"}, Row{ModalField::Units, 5, "G21 of line 1"},
                    Row{ModalField::Motion, 5, "G00 of line 5"}, Row{ModalField::Motion, 14, "G01 of line 14"},
                    Row{ModalField::Motion, 16, "G01 of line 14"}, Row{ModalField::Compensation, 14, "G42 of line 13"},
                    Row{ModalField::Compensation, 16, "G40 of line 16"},
                    // Held from the start, and no word says it.
                    Row{ModalField::WorkOffset, 5, "none"}));

// Asked for every move of a job with cycles, what is told really sets that field: its value came into force with it.
TEST(ModalOrigin, HoldsInsideCycles) {
    const std::vector<Move>& moves = trial().toolpath.moves;
    const ModalOrigins origins(trial());
    for (std::size_t i = 0; i < moves.size(); ++i) {
        if (moves[i].cycleBlock == kNoBlock) continue;
        const auto motion = origins.of(trial(), ModalField::Motion, i);
        ASSERT_TRUE(motion);
        EXPECT_EQ(trial().program.lineOf(motion->block), 7u);
    }
}

}  // namespace
}  // namespace firstoff
