// Turns of the spindle along moves, held against spindle speed integrated over time.
#include "sim/motion/move_turns.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

struct Row {
    const char* name;
    const char* program;  // the last move is looked at
    double turns;         // 0: only held against the integral
};

void PrintTo(const Row& row, std::ostream* out) {
    *out << row.name;
}

class Turns : public testing::TestWithParam<Row> {};

// Simpson's rule over time; the speed has kinks at the clamp, so it is only good to 1e-6.
double integrated(const TimedMove& timed, const Toolpath& path, const Setup& setup) {
    const int n = 20000;
    double sum = 0;
    for (int i = 0; i <= n; ++i) {
        const double t = timed.t0 + (timed.t1 - timed.t0) * i / n;
        const double rpm = revPerMinAt(timed, path, setup, fractionAt(timed, path, setup, t));
        sum += rpm * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * (timed.t1 - timed.t0) / n / 3 / 60;
}

TEST_P(Turns, AreSpeedOverTime) {
    auto setup = shop::barStock(80, 100);
    shop::addTurningTool(setup, 1, 'D', 0.8, 93);
    const Program program = readProgram(std::string("T0101\n") + GetParam().program + "\nM30\n", "turns.nc");
    const Toolpath path = interpret(program, setup);
    const Timeline timeline = layOut(path, setup);
    std::size_t last = timeline.moves.size() - 1;
    while (timeline.moves[last].kind == MoveKind::Rapid || timeline.moves[last].kind == MoveKind::Home) --last;
    const TimedMove& timed = timeline.moves[last];
    const MoveTurns turns(timed, path, setup);
    EXPECT_NEAR(turns.total(), integrated(timed, path, setup), 2e-6 * turns.total());
    if (GetParam().turns > 0) {
        EXPECT_NEAR(turns.total(), GetParam().turns, 1e-9 * GetParam().turns);
    }
    // And back again: turns up to a place, by the time at which the tool is there.
    for (double part : {0.1, 0.37, 0.5, 0.81, 0.99}) {
        const double fraction = turns.fractionAfter(part * turns.total());
        TimedMove first = timed;
        double low = timed.t0, high = timed.t1;
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            (fractionAt(timed, path, setup, middle) < fraction ? low : high) = middle;
        }
        const int n = 4000;
        double sum = 0;
        for (int i = 0; i <= n; ++i) {
            const double t = timed.t0 + (low - timed.t0) * i / n;
            sum += revPerMinAt(first, path, setup, fractionAt(timed, path, setup, t)) * (i == 0 || i == n ? 0.5 : 1);
        }
        EXPECT_NEAR(sum * (low - timed.t0) / n / 60, part * turns.total(), 1e-4 * turns.total()) << part;
    }
}

INSTANTIATE_TEST_SUITE_P(
    Rows, Turns,
    testing::Values(
        Row{"feed_per_revolution", "G97 S800 M03\nG00 X40. Z2.\nG01 Z-18. F0.2", 100},
        Row{"taper", "G97 S800 M03\nG00 X40. Z2.\nG01 X46. Z-2. F0.1", 50},
        Row{"surface_speed", "G50 S2000\nG96 S200 M03\nG00 X80. Z0\nG01 X20. F0.2", 150},
        Row{"surface_speed_with_clamp", "G50 S1200\nG96 S200 M03\nG00 X80. Z0\nG01 X0 F0.2", 200},
        Row{"feed_per_minute", "G98 G97 S800 M03\nG00 X40. Z0\nG01 Z-16. F160.", 80},
        // 200 m/min: N = 200000 / (2 pi r); at 100 mm/min, r 40 to 10: 318.31 ln 4... by the integral.
        Row{"feed_per_minute_at_surface_speed", "G50 S9000\nG98 G96 S200 M03\nG00 X80. Z0\nG01 X20. F100.",
            200000 / (2 * 3.14159265358979323846) / 100 * 1.3862943611198906},
        Row{"feed_per_minute_across_the_clamp", "G50 S1500\nG98 G96 S200 M03\nG00 X80. Z0\nG01 X-10. F100.", 0},
        Row{"more_feed_than_the_machine_has", "G50 S4000\nG96 S250 M03\nG00 X80. Z0\nG01 X6. F3.", 0},
        Row{"arc", "G97 S800 M03\nG00 X40. Z0\nG01 F0.2\nG02 X60. Z-10. R10.", 10 * 3.14159265358979323846 / 2 / 0.2},
        Row{"arc_feed_per_minute_at_surface_speed", "G50 S3000\nG98 G96 S200 M03\nG00 X0 Z0\nG03 X60. Z-30. R30. F100.",
            0}),
    [](const auto& row) { return std::string(row.param.name); });

TEST(MoveTurns, NoneWithoutTurningOrFeed) {
    auto setup = shop::barStock(80, 100);
    shop::addTurningTool(setup, 1, 'D', 0.8, 93);
    const Program program = readProgram("T0101\nG00 X40. Z2.\nG01 Z0 F0.2\nG97 S500 M03\nG00 X50.\nM30\n", "turns.nc");
    const Toolpath path = interpret(program, setup);
    const Timeline timeline = layOut(path, setup);
    for (const TimedMove& timed : timeline.moves) {
        EXPECT_EQ(MoveTurns(timed, path, setup).total(), 0) << name(timed.kind);
    }
}

}  // namespace
}  // namespace firstoff
