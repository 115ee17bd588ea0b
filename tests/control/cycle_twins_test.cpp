// Cycles written in different ways make the same moves: longhand, incremental, in inches, in another code system.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <string>

#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

constexpr double kRounding = 1e-9;
// Inch figures are written with six decimals: half a millionth of an inch, on both ends of a distance.
constexpr double kInchFigures = 5e-5;

Toolpath run(const std::string& program, CodeSystem system = CodeSystem::A) {
    auto setup = shop::barStock(60, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addGroovingTool(setup, 6, 3, 0.2);
    shop::addDrill(setup, 8, 12);
    setup.control.codeSystem = system;
    return interpret(readProgram(program, "twin"), setup);
}

void sameMoves(const Toolpath& a, const Toolpath& b, double within) {
    RC_ASSERT(a.findings.size() == b.findings.size());
    RC_ASSERT(a.moves.size() == b.moves.size());
    RC_ASSERT(!a.moves.empty());
    for (std::size_t i = 0; i < a.moves.size(); ++i) {
        RC_ASSERT(a.moves[i].kind == b.moves[i].kind);
        RC_ASSERT(distance(a.moves[i].to, b.moves[i].to) < within);
        RC_ASSERT(std::abs(a.moves[i].seconds - b.moves[i].seconds) < kRounding);
        if (a.moves[i].kind == MoveKind::Feed) RC_ASSERT(std::abs(a.moves[i].feed - b.moves[i].feed) < kInchFigures);
    }
}

// Thousandths of a millimetre, as programs write them.
double between(int least, int most) {
    return *rc::gen::inRange(1000 * least, 1000 * most + 1) / 1000.0;
}

struct Pass {
    double x = between(20, 55), z = between(-60, -1), taper = between(-4, 1), next = between(15, 19);
};

constexpr const char* kHead = "T0101\nG97 G99 S900 M03\nG00 X62. Z2.\n";

TEST(CycleTwins, TurningPassIsItsFourMoves) {
    EXPECT_TRUE(rc::check("longhand", [] {
        const Pass p;
        const std::string cycle = fmt::format("{}G90 X{:.3f} Z{:.3f} R{:.3f} F.2\nX{:.3f}\nG00 X70.\nM30\n", kHead, p.x,
                                              p.z, p.taper, p.next);
        std::string longhand = kHead;
        for (double x : {p.x, p.next}) {
            longhand += fmt::format("G00 X{:.3f}\nG01 X{:.3f} Z{:.3f} F.2\nX62.\nG00 Z2.\n", x + 2 * p.taper, x, p.z);
        }
        sameMoves(run(cycle), run(longhand + "G00 X70.\nM30\n"), kRounding);
    }));
}

TEST(CycleTwins, IncrementalWordsAreAbsoluteOnes) {
    EXPECT_TRUE(rc::check("U and W", [] {
        const Pass p;
        const auto program = [](const std::string& pass, const std::string& next, const std::string& face) {
            return fmt::format("{}G90 {} F.2\n{}\nG94 {}\nG00 X70.\nM30\n", kHead, pass, next, face);
        };
        sameMoves(run(program(fmt::format("X{:.3f} Z{:.3f}", p.x, p.z), fmt::format("X{:.3f}", p.next),
                              fmt::format("X{:.3f} Z{:.3f}", p.next, p.z))),
                  run(program(fmt::format("U{:.3f} W{:.3f}", p.x - 62, p.z - 2), fmt::format("U{:.3f}", p.next - 62),
                              fmt::format("U{:.3f} W{:.3f}", p.next - 62, p.z - 2))),
                  kRounding);
    }));
}

TEST(CycleTwins, InchesAreMillimetres) {
    EXPECT_TRUE(rc::check("G20", [] {
        // Pecks and steps in whole ten-thousandths of an inch, 2.54 µm; so that both can write them.
        const int peck = 50 * *rc::gen::inRange(10, 40);
        const int step = 50 * *rc::gen::inRange(5, 20);
        const double depth = between(2, 10), width = between(1, 12), taper = between(-3, 0);
        const auto program = [&](double unit, const char* code, double increments) {
            const auto mm = [&](double length) { return fmt::format("{:.6f}", length / unit); };
            const auto count = [&](int tenThousandths) {
                return fmt::format("{:.0f}", tenThousandths * 25.4 / 10000 / unit * increments);
            };
            return fmt::format("{} {}G97 G99 S900\nG00 X{} Z{}\nG90 X{} Z{} R{} F{}\n", code, kHead, mm(60), mm(2),
                               mm(60 - depth), mm(-width), mm(taper), mm(0.2)) +
                   fmt::format("G00 X{} Z{}\nG75 R{}\nG75 X{} Z{} P{} Q{}\n", mm(62), mm(-20), mm(0.5), mm(62 - depth),
                               mm(-20 - width), count(peck), count(step)) +
                   fmt::format("G00 X0 Z{}\nG83 Z{} R{} Q{} P200\nG80\nG00 X{}\nM30\n", mm(5), mm(-depth), mm(-3),
                               count(peck), mm(80));
        };
        // The start of kHead is at other places in inches, but far off in both.
        std::string inch = program(25.4, "G20", 10000);
        std::string metric = program(1, "G21", 1000);
        const std::string start = "G00 X62. Z2.\n";
        inch.erase(inch.find(start), start.size());
        metric.erase(metric.find(start), start.size());
        sameMoves(run(metric), run(inch), kInchFigures);
    }));
}

TEST(CycleTwins, CodeSystemsDifferInNumbersOnly) {
    EXPECT_TRUE(rc::check("A, B and C", [] {
        const Pass p;
        const auto program = [&](const char* perRev, const char* pass, const char* face, const char* pecks,
                                 const char* groove, double retract) {
            return fmt::format("T0101\nG97 {} S900 M03\nG00 X62. Z2.\n{} X{:.3f} Z{:.3f} R{:.3f} F.2\n{} X10. Z-.5\n",
                               perRev, pass, p.x, p.z, p.taper, face) +
                   fmt::format("G00 X62. Z-5.\n{} X50. Z-9. P2000 Q2500\nG00 X0 Z5.\n{} Z-20. Q6000\n", groove, pecks) +
                   fmt::format("G83 Z-30. R{:.3f} Q7000 P100\nG80\nG00 X70.\nM30\n", retract);
        };
        const Toolpath a = run(program("G99", "G90", "G94", "G74", "G75", -3));
        sameMoves(a, run(program("G95", "G77", "G79", "G74", "G75", 2), CodeSystem::B), kRounding);
        sameMoves(a, run(program("G95", "G20", "G24", "G76", "G77", 2), CodeSystem::C), kRounding);
    }));
}

}  // namespace
}  // namespace firstoff
