// Threads end to end: what would crash or spoil them is found.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// Bar of 30 mm, 60 mm out of the jaws, face 1 mm proud of Z0.
firstoff::Setup bench() {
    auto setup = shop::barStock(30, 60);
    setup.nearMiss = {0, 0};  // tools swing past near the short bar
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addThreadingTool(setup, 5);
    shop::addDrill(setup, 7, 10.2);
    shop::addDrill(setup, 8, 11);
    shop::addTap(setup, 9, 12, 1.75);
    return setup;
}

struct Row {
    const char* name;
    const char* body;      // behind a face, a turned D20 to Z-30 and the threading tool's call; from line 8 on
    const char* expected;  // everything found, as code@line
};

// Lines 1 to 7.
const char* const kStart =
    "G21 G40 G99 T0101\nG97 S1000 M03\nG00 X34. Z0\nG01 X-1.6 F.2\nG00 X20. Z2.\nG01 Z-30. F.2\nX34.\n";
const char* const kEnd = "G00 X120. Z60.\nM30\n";

class ThreadCases : public testing::TestWithParam<Row> {};

TEST_P(ThreadCases, FindsExactlyThis) {
    const std::string program = std::string(kStart) + GetParam().body + kEnd;
    EXPECT_EQ(shop::found(*shop::run(program, bench())), GetParam().expected);
}

INSTANTIATE_TEST_SUITE_P(
    Trial, ThreadCases,
    testing::Values(
        // D20 turned; with a nose of 0.1 instead of 0.217 the root of M20 x 1.5 lies at 17.83 (6g: 18.994 to 18.854).
        Row{"a pass and straight out", "G00 Z6. T0505 G97 S1000 M03\nX17.83 Z6.\nG32 Z-20. F1.5\nG00 X24.\nZ6.\n",
            "thread-gauged@10"},
        Row{"straight out at feed", "G00 Z6. T0505 G97 S1000 M03\nX17.83\nG32 Z-20. F1.5\nG01 X24. F.2\nG00 Z6.\n",
            "thread-gauged@10"},
        Row{"out on a chained taper",
            "G00 Z6. T0505 G97 S1000 M03\nX17.83 Z6.\nG32 Z-20. F1.5\nG32 X24. Z-23.1\nG00 X30.\nZ6.\n",
            "thread-gauged@10"},
        // A diagonal tears the thread.
        Row{"slanting out", "G00 Z6. T0505 G97 S1000 M03\nX17.83 Z6.\nG32 Z-20. F1.5\nG00 X24. Z-10.\nZ6.\n",
            "thread-gauged@10 rapid-into-material@11"},
        Row{"back without pulling out", "G00 Z6. T0505 G97 S1000 M03\nX17.83 Z6.\nG32 Z-20. F1.5\nG00 Z6.\nX24.\n",
            "thread-gauged@10 rapid-into-material@11"},
        // D30 stands 5 mm above the thread, the insert's profile is 3 mm deep.
        Row{"into the shoulder", "G00 Z6. T0505 G97 S1000 M03\nX18.4 Z6.\nG32 Z-31. F1.5\nG00 X34.\nZ6.\n",
            "holder-into-material@10 thread-into-material@10"},
        Row{"deeper than the flanks", "G00 Z6. T0505 G97 S1000 M03\nX16. Z6.\nG32 Z-20. F1.5\nG00 X34.\nZ6.\n",
            "thread-into-material@10"},
        Row{"no metal there", "G00 Z6. T0505 G97 S1000 M03\nX24. Z6.\nG32 Z-20. F1.5\nG00 X34.\nZ6.\n",
            "thread-meets-no-metal@10"},
        // Root 17.83 and depth 1.085 make a crest of 20.
        Row{"whole thread",
            "G00 X24. Z6. T0505 G97 S1000 M03\nG76 P021060 Q50 R.02\nG76 X17.83 Z-20. P1085 Q250 F1.5\n",
            "thread-gauged@10"},
        Row{"single passes with their pull out",
            "G00 X24. Z6. T0505 G97 S1000 M03\nG92 X19.4 Z-20. F1.5\nX18.9\nX18.3\nX17.83\nG00 X40.\n",
            "thread-gauged@12"},
        Row{"the crest stands too high",
            "G00 X24. Z6. T0505 G97 S1000 M03\nG76 P021060 Q50 R.02\nG76 X17.83 Z-20. P955 Q250 F1.5\n",
            "thread-deeper-than-meant@10 thread-gauged@10"},
        Row{"whole thread into the shoulder",
            "G00 X34. Z6. T0505 G97 S1000 M03\nG76 P020060 Q50 R.02\nG76 X18.16 Z-30.6 P920 Q250 F1.5\n",
            "holder-into-material@10 thread-into-material@10"},
        // The depth of the book, 0.613 P, with a nose smaller than the book's.
        Row{"depth of the book",
            "G00 X24. Z6. T0505 G97 S1000 M03\nG76 P021060 Q50 R.02\nG76 X18.16 Z-20. P920 Q250 F1.5\n",
            "thread-off-size@10"},
        Row{"two starts by their angle",
            "G00 Z6. T0505 G97 S500 M03\nX18.6\nG32 Z-20. F3. Q0\nG00 X24.\nZ6.\nX18.6\nG32 Z-20. F3. Q180000\nG00 "
            "X24.\nZ6.\nX17.83\nG32 Z-20. F3. Q0\nG00 X24.\nZ6.\nX17.83\nG32 Z-20. F3. Q180000\nG00 X24.\nZ6.\n",
            "thread-gauged@18"},
        Row{"another start Z by a whole lead",
            "G00 Z6. T0505 G97 S1000 M03\nX18.6\nG32 Z-20. F1.5\nG00 X24.\nZ7.5\nX17.83\nG32 Z-20. F1.5\nG00 X24.\n",
            "thread-gauged@14"},
        Row{"another start Z",
            "G00 Z6. T0505 G97 S1000 M03\nX18.6\nG32 Z-20. F1.5\nG00 X24.\nZ6.8\nX17.83\nG32 Z-20. "
            "F1.5\nG00 X24.\n",
            "thread-cross-cut@10"},
        Row{"finishing pass from another start Z",
            "G00 Z6. T0505 G97 S1000 M03\nX17.83\nG32 Z-20. F1.5\nG00 X24.\nZ6.4\nX17.83\nG32 Z-20. F1.5\nG00 X24.\n",
            "thread-starts-uneven@14"},
        Row{"another lead",
            "G00 Z6. T0505 G97 S1000 M03\nX18.6\nG32 Z-20. F1.5\nG00 X24.\nZ6.\nX17.83\nG32 Z-20. F1.75\n"
            "G00 X24.\n",
            "thread-cross-cut@14"},
        Row{"a pass against the hand",
            "G00 Z6. T0505 G97 S1000 M03\nX18.6\nG32 Z-20. F1.5\nG00 X24.\nZ6. M04\nX17.83\nG32 Z-20. F1.5\nG00 X24.\n",
            "thread-cross-cut@10 cut-with-spindle-reversed@14"},
        Row{"too deep", "G00 Z6. T0505 G97 S1000 M03\nX17.63\nG32 Z-20. F1.5\nG00 X24.\n", "thread-off-size@10"},
        Row{"too deep for its lead",
            "G00 Z6. T0505 G97 S1000 M03\nX18.6\nG32 Z-20. F1.5\nG00 X24.\nZ6.\nX17.45\nG32 "
            "Z-20. F1.5\nG00 X24.\n",
            "thread-crest-gone@14"},
        Row{"tap in its hole",
            "G00 X60. Z130.\nT0707 G97 S800 M03\nG00 X0 Z5.\nG01 Z-30. F.15\nG00 Z130.\nT0909 G97 S300 M03\n"
            "G00 X0 Z6.\nG84 Z-18. R-1. F1.75\nG80\n",
            ""},
        Row{"tap in too large a hole",
            "G00 X60. Z130.\nT0808 G97 S800 M03\nG00 X0 Z5.\nG01 Z-30. F.15\nG00 Z130.\nT0909 G97 S300 M03\n"
            "G00 X0 Z6.\nG84 Z-18. R-1. F1.75\nG80\n",
            "tap-hole-too-large@15"},
        // Infeed along 80° with an insert of 60°: said where it is written, and no groove is missed.
        Row{"infeed of another angle",
            "G00 X24. Z6. T0505 G97 S1000 M03\nG76 P021080 Q50 R.02\nG76 X17.83 Z-20. P1085 Q250 F1.5\n",
            "thread-angle-differs@10 thread-crest-gone@10"},
        Row{"just over the ring", "G00 Z6. T0505 G97 S1000 M03\nX17.92\nG32 Z-20. F1.5\nG00 X24.\n",
            "thread-off-size@10"},
        Row{"tap at the bottom of its hole",
            "G00 X60. Z130.\nT0707 G97 S800 M03\nG00 X0 Z5.\nG01 Z-15. F.15\nG00 Z130.\nT0909 G97 S300 M03\n"
            "G00 X0 Z6.\nG84 Z-18. R-1. F1.75\nG80\n",
            "tap-into-material@15"},
        Row{"tap without a hole", "G00 X60. Z130.\nT0909 G97 S300 M03\nG00 X0 Z6.\nG84 Z-18. R-1. F1.75\nG80\n",
            "tap-into-material@11"},
        Row{"spindle the wrong way", "G00 Z6. T0505 G97 S1000 M03\nX17.83 Z6. M04\nG32 Z-20. F1.5\nG00 X24.\nZ6.\n",
            "cut-with-spindle-reversed@10 thread-gauged@10"},
        Row{"start too near", "G00 Z.8 T0505 G97 S1000 M03\nX17.83\nG32 Z-20. F1.5\nG00 X24.\nZ6.\n",
            "thread-short-run-in@10 thread-gauged@10"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(ThreadTrial, TakesItsGrooveAndNothingElse) {
    const std::string body = "G00 Z6. T0505 G97 S1000 M03\nX18.4 Z6.\nG32 Z-20. F1.5\nG00 X24.\nZ6.\n";
    const auto with = shop::run(std::string(kStart) + body + kEnd, bench());
    const auto without = shop::run(std::string(kStart) + kEnd, bench());
    EXPECT_EQ(without->verdict, Verdict::Clear) << shop::found(*without);
    // A V of 60° 0.8 mm deep, rounded 0.1, over 20 mm at a lead of 1.5: (0.8 + 0.1)² tan 30° - the tip above the
    // rounding, (cot 30° - pi / 3) 0.1², at nearly the pitch radius of 9.7 mm.
    const double area = 0.81 * std::tan(radians(30)) - (1 / std::tan(radians(30)) - kPi / 3) * 0.01;
    EXPECT_NEAR(with->removedVolumeMm3 - without->removedVolumeMm3, area * 20 / 1.5 * 2 * kPi * 9.7,
                0.02 * area * 20 / 1.5 * 2 * kPi * 9.7);
    // 26 mm at a lead of 1.5, 1000 rev/min, 20 of them in metal: places are looked at a hundredth of the way apart, at
    // both ends.
    EXPECT_NEAR(with->cuttingTimeS - without->cuttingTimeS, 20 / 1.5 / 1000 * 60, 2 * 0.01 * 26 / 1.5 / 1000 * 60);
}

TEST(ThreadTrial, TheStartIsMeasuredToTheMetal) {
    const auto trial =
        shop::run(std::string(kStart) + "G00 Z.8 T0505 G97 S1000 M03\nX18.4\nG32 Z-20. F1.5\nG00 X24.\nM30\n", bench());
    const auto found = shop::findings(*trial, "thread-short-run-in");
    ASSERT_EQ(found.size(), 1u);
    // Looks are 1/400 (20.8 mm) of the way apart, 0.05 mm.
    EXPECT_NEAR(found[0].values[0].second, 0.8, 0.06);
    EXPECT_NEAR(found[0].values[1].second, 1.5 * 1000 / 1800, 1e-9);
    EXPECT_EQ(found[0].severity, Severity::Warning);
}

}  // namespace
}  // namespace firstoff
