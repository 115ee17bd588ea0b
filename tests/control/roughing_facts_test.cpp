// What published descriptions of the roughing and finishing cycles say, row by row.
#include <gtest/gtest.h>

#include <algorithm>
#include <initializer_list>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/reference_rows.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

shop::ReferenceRow row(const std::string& id) {
    for (const shop::ReferenceRow& r : shop::referenceRows("turning_code_facts.csv")) {
        if (r.text("id") == id) return r;
    }
    throw std::runtime_error("no row " + id);
}

// Blocks of a row stand on one line, a stroke between them.
std::string blocks(const std::string& id) {
    std::string text = row(id).text("example_input");
    for (char& c : text) c = c == '/' ? '\n' : c;
    text.push_back('\n');
    return text;
}

struct Carried {
    firstoff::Setup setup;
    Toolpath path;

    explicit Carried(std::initializer_list<std::string> parts) : setup(shop::barStock(60, 100)) {
        shop::addTurningTool(setup, 1, 'C', 0.8);
        std::string program = "T0101\nG97 S1000 M03\n";
        for (const std::string& part : parts) program += part;
        program += "M30\n";
        path = interpret(readProgram(program, "facts"), setup);
    }
    Point end(const Move& move) const { return move.to + path.programmedShift(move); }
    // Moves of one pass, those before the last pass without a profile block of their own.
    std::vector<const Move*> pass(int number) const {
        std::vector<const Move*> moves;
        for (const Move& move : path.moves) {
            if (move.pass == number) moves.push_back(&move);
        }
        return moves;
    }
};

// Rows state their figures exactly; what is left is the rounding of doubles.
constexpr double kExact = 1e-9;

const char* const kShaft = "N50 G00 X40\nG01 Z-20 F0.1 S1500\nN130 X60\n";

TEST(RoughingFacts, Tc050TwoBlocksGiveDepthRetractAndAllowances) {
    const Carried run({"G00 X62 Z2\n", blocks("TC050"), kShaft});
    const auto first = run.pass(1);
    ASSERT_EQ(first.size(), 4u);
    EXPECT_NEAR(run.end(*first[0]).r, 31 - 1.5, kExact);       // U1.5 on radius
    EXPECT_NEAR(run.end(*first[1]).z, -20 + 0.1, kExact);      // W0.1
    EXPECT_NEAR(run.end(*first[2]).r, 31 - 1.5 + 1, kExact);   // R1
    EXPECT_NEAR(run.end(*first[2]).z, -20 + 0.1 + 1, kExact);  // R1
    EXPECT_NEAR(first[1]->feed, 0.3, kExact);
    const Move& along = run.path.moves[run.path.moves.size() - 3];
    EXPECT_NEAR(run.end(along).r, 20 + 0.4 / 2, kExact);  // U0.4 on diameter
}

TEST(RoughingFacts, Tc051OneBlockGivesThemToo) {
    const Carried run({"G00 X62 Z2\nF0.3\n", blocks("TC051"), "N04 G00 X30\nG01 Z-20\nN10 X60\n"});
    const auto first = run.pass(1);
    ASSERT_EQ(first.size(), 4u);
    EXPECT_NEAR(run.end(*first[0]).r, 31 - 7, kExact);
    EXPECT_NEAR(run.end(*first[1]).z, -20 + 2, kExact);
    EXPECT_NEAR(run.end(*first[2]).r, 31 - 7 + 1, kExact);
    EXPECT_NEAR(run.end(run.path.moves[run.path.moves.size() - 3]).r, 15 + 4.0 / 2, kExact);
}

TEST(RoughingFacts, Tc052TheProfileIsReadForItsShapeOnly) {
    ASSERT_NE(row("TC052").text("fact").find("only read for the shape"), std::string::npos);
    const Carried run({"G00 X62 Z2\nG71 U2 R1\nG71 P50 Q130 U0.4 W0.1 F0.3 S800\n", kShaft, "G70 P50 Q130\n"});
    std::set<double> feeds;
    std::set<double> speeds;
    bool finishing = false;
    for (const Move& move : run.path.moves) {
        const ModalState& modal = run.path.modals[move.modal];
        if (move.kind != MoveKind::Feed) continue;
        finishing |= modal.speed == 1500;
        EXPECT_EQ(modal.speed, finishing ? 1500 : 800);
        EXPECT_EQ(move.feed, finishing ? 0.1 : 0.3);
    }
    EXPECT_TRUE(finishing);
}

TEST(RoughingFacts, Tc053FinishingRunsTheProfileOnceAndReturns) {
    const Carried run({"G00 X62 Z2\n", blocks("TC053"), kShaft});
    std::vector<Point> ends;
    for (const Move* move : run.pass(1)) ends.push_back(run.end(*move));
    const std::vector<Point> expected = {{2, 20}, {-20, 20}, {-20, 30}, {2, 31}};
    ASSERT_EQ(ends.size(), expected.size());
    for (std::size_t i = 0; i < ends.size(); ++i) EXPECT_LT(distance(ends[i], expected[i]), kExact);
    EXPECT_NEAR(run.pass(1)[1]->feed, 0.1, kExact);
}

TEST(RoughingFacts, Tc054TheStartBesideTheBlankIsAStart) {
    const std::string start = row("TC054").text("expected");
    const Carried run({"G00 ", start, "\nG71 U1.5 R1\nG71 P50 Q130 U0.4 W0.1 F0.3\nN50 G00 X20\nG01 Z-20\nN130 X30\n"});
    const auto& found = run.path.findings;
    EXPECT_TRUE(
        std::none_of(found.begin(), found.end(), [](const Finding& f) { return f.severity == Severity::Stop; }));
}

TEST(RoughingFacts, Tc063FacingTakesWPerPass) {
    ASSERT_NE(row("TC063").text("fact").find("W depth per cut"), std::string::npos);
    const Carried run({"G00 X62 Z2\nG72 W1.5 R1\nG72 P50 Q130 U0.4 W0.1 F0.3\nN50 G00 Z-6\nG01 X40\nN130 Z0\n"});
    for (int pass = 1; pass <= 5; ++pass) {
        const auto moves = run.pass(pass);
        ASSERT_GE(moves.size(), 2u);
        EXPECT_NEAR(run.end(*moves[0]).z, 2 - 1.5 * pass, kExact);
        EXPECT_EQ(moves[1]->from.z, moves[1]->to.z);
    }
}

TEST(RoughingFacts, Tc064TheWholePatternIsRepeatedRTimes) {
    ASSERT_NE(row("TC064").text("fact").find("R number of passes"), std::string::npos);
    const Carried run({"G00 X62 Z2\nG73 U4 W2 R5\nG73 P50 Q130 U0.4 W0.1 F0.3\n", kShaft});
    EXPECT_EQ(run.path.moves.back().pass, 5);
    for (int pass = 1; pass <= 5; ++pass) {
        const auto moves = run.pass(pass);
        const double part = (5 - pass) / 4.0;
        ASSERT_GE(moves.size(), 4u);
        EXPECT_LT(distance(run.end(*moves[2]), {-20 + 0.1 + 2 * part, 20 + 0.2 + 4 * part}), kExact);
    }
}

}  // namespace
}  // namespace firstoff
