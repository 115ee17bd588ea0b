// Cycles found in a toolpath and drawn: as many passes as there are, at the places where they are.
#include "sim/output/sheets/cycle_figure.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/support/demo_trials.h"
#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

constexpr double kWidth = 182;

class CyclesOfJob : public testing::TestWithParam<const char*> {};

// Lines drawn of a kind, open ones.
std::vector<Stroke> strokes(const Sketch& sketch, LineKind kind) {
    std::vector<Stroke> found;
    for (const SketchMark& mark : sketch.marks) {
        const auto* stroke = std::get_if<Stroke>(&mark);
        if (stroke != nullptr && stroke->line == kind && !stroke->closed) found.push_back(*stroke);
    }
    return found;
}

TEST_P(CyclesOfJob, AreAllFoundWithEveryPassAndDrawnSo) {
    const Trial& trial = shop::demoTrial(GetParam());
    // Counted another way: pairs of the calling block and the number of the pass, among moves that cut.
    std::set<std::pair<BlockId, int>> wanted, found;
    for (const Move& move : trial.toolpath.moves) {
        if (isFed(move) && move.cycleBlock != kNoBlock) wanted.emplace(move.cycleBlock, move.pass);
    }
    std::size_t drawn = 0, passes = 0;
    for (const CycleRun& run : cycleRuns(trial)) {
        for (const CyclePass& pass : run.passes) {
            for (std::uint32_t i = pass.first; i < pass.end; ++i) {
                const Move& move = trial.toolpath.moves[i];
                if (isFed(move)) found.emplace(move.cycleBlock, move.pass);
            }
        }
        const Sketch sketch = cycleFigure(trial, run, kWidth);
        const LineKind kind = run.passes.size() > 8 ? LineKind::Fine : LineKind::Narrow;
        drawn += strokes(sketch, kind).size() - 1;  // a sample stands in the legend
        passes += run.passes.size();
        for (const SketchMark& mark : sketch.marks) {
            const auto* stroke = std::get_if<Stroke>(&mark);
            if (stroke == nullptr) continue;
            for (PaperPoint p : stroke->points) {
                EXPECT_TRUE(p.x >= 0 && p.x <= sketch.width && p.y >= 0 && p.y <= sketch.height) << sketch.title;
            }
        }
    }
    EXPECT_EQ(found, wanted);
    EXPECT_EQ(drawn, passes);
    EXPECT_EQ(passes, wanted.size());  // no demo carries one cycle out twice
}

INSTANTIATE_TEST_SUITE_P(Jobs, CyclesOfJob,
                         testing::Values("bored-bush", "coupling-spigot", "drain-plug", "grooved-pulley",
                                         "hose-adapter", "trap", "union-sleeve"),
                         [](const auto& row) {
                             std::string name = row.param;
                             std::erase(name, '-');
                             return name;
                         });

// A bar of 40: G71 with a depth of 2 from X44 goes along 40, 36, 32, then the profile; by hand.
const char* kRoughing =
    "G21 G40 G99\nT0101\nG97 S800 M03\nG00 X44. Z2.\n"
    "G71 U2. R0.5\n"                // 5
    "G71 P10 Q20 U0.4 W0.1 F0.2\n"  // 6
    "N10 G00 X30.\n"                // 7
    "G01 Z-20. F0.1\n"              // 8
    "N20 X44.\n"                    // 9
    "G70 P10 Q20\n"                 // 10
    "G00 X80. Z50.\nM30\n";

const Trial& roughing() {
    static const auto made = [] {
        auto setup = shop::barStock(40, 60);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        return shop::run(kRoughing, std::move(setup));
    }();
    return *made;
}

TEST(CycleRuns, TellLevelsAndWhatGoesAlongTheProfile) {
    const std::vector<CycleRun> runs = cycleRuns(roughing());
    ASSERT_EQ(runs.size(), 2u);
    EXPECT_EQ(runs[0].order, Order::RoughingAlong);
    EXPECT_EQ(runs[0].block, 5u);
    std::vector<double> levels;
    for (const CyclePass& pass : runs[0].passes) {
        if (!pass.alongProfile) levels.push_back(2 * pass.level.r);
    }
    // The next would be 28, inside the profile with its allowance at 30.4.
    EXPECT_THAT(levels, testing::ElementsAre(testing::DoubleNear(40, 1e-9), testing::DoubleNear(36, 1e-9),
                                             testing::DoubleNear(32, 1e-9)));
    EXPECT_TRUE(runs[0].passes.back().alongProfile);
    EXPECT_EQ(runs[1].order, Order::FinishingCycle);
    EXPECT_EQ(runs[1].passes.size(), 1u);
}

TEST(CycleRuns, TakeRepeatsOfAModalCycleTogether) {
    auto setup = shop::barStock(40, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const auto trial = shop::run(
        "G21 G40 G99\nT0101\nG97 S800 M03\nG00 X44. Z2.\nG90 X38. Z-20. F0.2\nX36.\nX34.\nG90 X30. Z-10.\nX28.\n"
        "G00 X80. Z50.\nM30\n",
        std::move(setup));
    const std::vector<CycleRun> runs = cycleRuns(*trial);
    ASSERT_EQ(runs.size(), 2u);
    EXPECT_EQ(runs[0].passes.size(), 3u);
    EXPECT_EQ(runs[0].block, 4u);
    EXPECT_EQ(runs[0].lastBlock, 6u);
    EXPECT_EQ(runs[1].passes.size(), 2u);
    EXPECT_EQ(runs[1].order, Order::TurningPass);
}

TEST(CycleRuns, CountACycleInALoopOnce) {
    auto setup = shop::barStock(40, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const auto trial = shop::run(
        "G21 G40 G99\nT0101\nG97 S800 M03\n#1=1\nWHILE[#1LE3]DO1\nG00 X44. Z2.\nG90 X38. Z-20. F0.2\nG00 X44.\n"
        "#1=#1+1\nEND1\nG00 X80. Z50.\nM30\n",
        std::move(setup));
    const std::vector<CycleRun> runs = cycleRuns(*trial);
    ASSERT_EQ(runs.size(), 1u);
    EXPECT_EQ(runs[0].times, 3);
    EXPECT_EQ(runs[0].passes.size(), 1u);
}

// Roughing and finishing have one profile: what is programmed, whatever is left on and whichever nose turns it.
TEST(ProgrammedProfile, IsWhatTheProgramSays) {
    const std::vector<CycleRun> runs = cycleRuns(roughing());
    const Point datum = roughing().toolpath.datums.back();
    for (const CycleRun& run : runs) {
        const std::vector<Point> profile = programmedProfile(roughing(), run);
        ASSERT_GE(profile.size(), 3u);
        const std::vector<Point> wanted = {{2, 15}, {-20, 15}, {-20, 22}};
        for (std::size_t i = 0; i < 3; ++i) {
            EXPECT_NEAR(profile[i].z, wanted[i].z + datum.z, 1e-9) << i;
            EXPECT_NEAR(profile[i].r, wanted[i].r, 1e-9) << i;
        }
    }
}

TEST(CycleFigure, IsTrueToScale) {
    const std::vector<CycleRun> runs = cycleRuns(roughing());
    const Sketch sketch = cycleFigure(roughing(), runs[0], kWidth);
    // The passes at X40 and X36 lie 2 mm apart in radius, their ways 22 mm long but for what the profile cuts off.
    const std::vector<Stroke> passes = strokes(sketch, LineKind::Narrow);
    const double apart = passes[1].points[0].y - passes[0].points[0].y;
    const double scale = apart / 2;
    EXPECT_TRUE(std::abs(scale - 2) < 1e-9 || std::abs(scale - 5) < 1e-9) << scale;
    const auto says = [&](const std::string& text) {
        return std::any_of(sketch.marks.begin(), sketch.marks.end(), [&](const SketchMark& mark) {
            const auto* lettering = std::get_if<Lettering>(&mark);
            return lettering != nullptr && lettering->text == text;
        });
    };
    EXPECT_TRUE(says("scale " + scaleInWords(scale)));
    EXPECT_TRUE(says("programmed profile"));
    EXPECT_FALSE(strokes(sketch, LineKind::Phantom).empty());
    EXPECT_FALSE(strokes(sketch, LineKind::Hidden).empty());
}

TEST(CycleFigure, MarksTheDatumWhereItIsInView) {
    const Trial& trial = shop::demoTrial("coupling-spigot");
    const Sketch sketch = cycleFigure(trial, cycleRuns(trial).front(), kWidth);
    const auto rings = std::count_if(sketch.marks.begin(), sketch.marks.end(),
                                     [](const SketchMark& mark) { return std::holds_alternative<Ring>(mark); });
    EXPECT_EQ(rings, 1);
}

// The centre of a nose of 0.8 runs 0.8 outside the profile, its tip on it along Z.
TEST(CycleFigure, ShowsTheCentreOfACompensatedNose) {
    auto setup = shop::barStock(40, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const auto trial = shop::run(
        "G21 G40 G99\nT0101\nG97 S800 M03\nG00 X44. Z4.\nG70 P10 Q20\nG00 X80. Z50.\nM30\n"
        "N10 G00 G42 X36. Z2.\nG01 Z-20. F0.1\nN20 G40 X44.\n",
        std::move(setup));
    const std::vector<CycleRun> runs = cycleRuns(*trial);
    ASSERT_EQ(runs.size(), 1u);
    const Sketch sketch = cycleFigure(*trial, runs[0], kWidth);
    const std::vector<Stroke> profile = strokes(sketch, LineKind::Wide), pass = strokes(sketch, LineKind::Narrow);
    ASSERT_FALSE(profile.empty());
    ASSERT_FALSE(pass.empty());
    double nearest = 1e9;
    for (const Stroke& centre : strokes(sketch, LineKind::Centre)) {
        for (PaperPoint p : centre.points) {
            const double above = profile[0].points[0].y - p.y;
            if (above > 0.1) nearest = std::min(nearest, above);
        }
    }
    const double mmOnPaper = (pass[0].points[0].x - pass[0].points[1].x) / 22;  // Z2 to Z-20, less the nose
    EXPECT_NEAR(nearest / mmOnPaper, 0.8, 0.05);
}

}  // namespace
}  // namespace firstoff
