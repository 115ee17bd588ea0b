// Ways of the tool in the half-section.
#include "gui/section/section_paths.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "tests/support/trial_shop.h"

namespace firstoff::gui {
namespace {

constexpr const char* kProgram =
    "G21 G40 G99\n"             // 1
    "T0101\n"                   // 2
    "G97 S900 M03\n"            // 3
    "G00 X62. Z2.\n"            // 4
    "G71 U2.5 R0.5\n"           // 5
    "G71 P10 Q20 U0 W0 F0.3\n"  // 6
    "N10 G00 X40.\n"            // 7
    "G01 Z-20.\n"               // 8
    "N20 X62.\n"                // 9
    "G00 X36. Z2.\n"            // 10
    "G42 Z1.\n"                 // 11
    "G01 Z-15. F0.1\n"          // 12
    "G02 X46. Z-20. R5.\n"      // 13
    "G01 X64.\n"                // 14
    "G00 G40 X66.\n"            // 15
    "M30\n";                    // 16

constexpr double kNose = 0.8;

const Trial& trial() {
    static const auto made = [] {
        auto setup = shop::barStock(60, 80);
        shop::addTurningTool(setup, 1, 'C', kNose);
        return runTrial(readProgram(kProgram, "ways.nc"), std::move(setup));
    }();
    return *made;
}

SectionPaths at(std::uint32_t line, std::size_t most = 1000) {
    static const TimelineIndex index(trial());
    const Instant now = instantAt(trial(), index, trial().startOfBlock(line - 1) + 1e-3, trial().toolpath.steps.size());
    return sectionPaths(trial(), now, most);
}

std::vector<PathLine> of(const SectionPaths& paths, PathLine::Of kind, std::uint32_t line) {
    std::vector<PathLine> found;
    for (const PathLine& one : paths.lines) {
        const Move& move = trial().toolpath.moves[trial().timeline.moves[one.timed].move];
        if (one.of == kind && move.block == line - 1) found.push_back(one);
    }
    return found;
}

// Depth 10 on radius in steps of 2.5: four passes along, each lit, and the one along the contour.
TEST(SectionPaths, LightAllPassesOfTheCycle) {
    const SectionPaths paths = at(6);
    std::set<int> passes;
    for (const PathLine& line : paths.lines) {
        const Move& move = trial().toolpath.moves[trial().timeline.moves[line.timed].move];
        EXPECT_EQ(line.lit, move.cycleBlock == 5) << line.timed;
        if (line.lit && line.motion == MotionClass::Cutting) passes.insert(move.pass);
    }
    const auto cutting = static_cast<std::size_t>(
        std::count_if(trial().toolpath.moves.begin(), trial().toolpath.moves.end(), [](const Move& m) {
            return m.cycleBlock == 5 && m.kind == MoveKind::Feed && m.from.z > m.to.z && m.from.r == m.to.r;
        }));
    EXPECT_EQ(cutting, 5u);
    EXPECT_GE(passes.size(), 4u);
}

// The programmed contour comes back from the centre's way: line 12 runs along X36, line 13 is an arc of radius 5.
TEST(SectionPaths, FindTheContourBesideTheNose) {
    const SectionPaths paths = at(12);
    const auto centre = of(paths, PathLine::Of::NoseCentre, 12), contour = of(paths, PathLine::Of::Programmed, 12);
    ASSERT_EQ(contour.size(), 1u);
    ASSERT_EQ(centre.size(), 1u);
    const Point datum = trial().toolpath.datums[trial().toolpath.modals.back().datum];
    EXPECT_NEAR(contour[0].to.r, 18, 1e-9);
    EXPECT_NEAR(contour[0].to.z - datum.z, -15, 1e-9);
    EXPECT_NEAR(centre[0].to.r, 18 + kNose, 1e-9);
    const auto arc = of(paths, PathLine::Of::Programmed, 13);
    ASSERT_FALSE(arc.empty());
    EXPECT_NEAR(arc[0].radius, 5, 1e-9);
    EXPECT_NEAR(of(paths, PathLine::Of::NoseCentre, 13)[0].radius, 5 - kNose, 1e-9);
    // While it comes in, the nose is not on the contour.
    EXPECT_TRUE(of(paths, PathLine::Of::Programmed, 11).empty());
}

TEST(SectionPaths, SayWhenTheyAreCutShort) {
    EXPECT_FALSE(at(12).cutShort);
    EXPECT_TRUE(at(12, 4).cutShort);
    EXPECT_LE(at(12, 4).lines.size(), 12u);
}

TEST(SectionPaths, GoRoundArcsTheRightWay) {
    PathLine arc{{10, 5}, {5, 10}, {5, 5}, 5, false, PathLine::Of::Tip, MotionClass::Cutting, 0, false};
    const auto shorter = alongLine(arc, 1e-3);
    arc.clockwise = true;
    const auto longer = alongLine(arc, 1e-3);
    const auto lengthOf = [](const std::vector<Point>& points) {
        double sum = 0;
        for (std::size_t i = 1; i < points.size(); ++i) sum += distance(points[i - 1], points[i]);
        return sum;
    };
    // A quarter and three quarters of a circle; chords within 1 µm of it are shorter by less than 1 in 1000.
    EXPECT_NEAR(lengthOf(shorter), 2.5 * M_PI, 0.01);
    EXPECT_NEAR(lengthOf(longer), 7.5 * M_PI, 0.03);
}

}  // namespace
}  // namespace firstoff::gui
