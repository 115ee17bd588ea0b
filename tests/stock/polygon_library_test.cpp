// Random toolpaths, cut by the billet and by a general-purpose polygon library: the sections must agree everywhere.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/section.h"
#include "sim/stock/sweep_profile.h"
#include "tests/support/geos_stock.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

// The library's polygons follow arcs of tool and path within this each.
constexpr double kChordErrorMm = 1e-4;

// 0.1 µm for each of the two chord errors, half a pitch (1 µm) for faces, 0.5 µm for the section's own tolerance, and a
// further 1 µm where a face and a steep flank meet between two columns: 2.7 µm. Wedges of metal thinner than a pitch,
// which no column stands in, are left out.
constexpr double kAgreementMm = 0.003;

struct Case {
    const char* name;
    void (*fit)(firstoff::Setup&);
    double rMin, rMax;  // where the tip may go
    bool alongAxis;     // a drill
};

Outline roundInsert() {
    Tool tool;
    tool.insertShape = 'R';
    tool.edgeLength = 8;
    tool.tipNumber = 0;
    return toolOutline(tool);
}

const Case kCases[] = {
    {"D_r08", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'D', 0.8, 93); }, 6, 24, false},
    {"C_r04", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'C', 0.4, 95); }, 6, 24, false},
    {"V_r02", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'V', 0.2, 107.5); }, 6, 24, false},
    {"round8", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'C', 0.4).cutting = roundInsert(); }, 8, 27, false},
    {"groove3", [](firstoff::Setup& s) { shop::addGroovingTool(s, 1, 3, 0.2); }, 6, 24, false},
    {"boring", [](firstoff::Setup& s) { shop::addBoringBar(s, 1, 'C', 0.4); }, 11, 19, false},
    {"drill8", [](firstoff::Setup& s) { shop::addDrill(s, 1, 8); }, 0, 0, true},
};

class RandomPaths : public testing::TestWithParam<Case> {};

constexpr double kLength = 50;
constexpr double kRadius = 20;

Point somewhere(const Case& c, shop::Dice& dice) {
    return {dice.between(5, kLength + 5), c.alongAxis ? 0 : dice.between(c.rMin, c.rMax)};
}

// Three moves in four are lines; the rest arcs of 1 to 4 mm radius, mostly up to 150 degrees, some nearly full circles.
Sweep nextMove(const Case& c, Point from, shop::Dice& dice) {
    if (c.alongAxis || dice.below(4) > 0) {
        Point to = somewhere(c, dice);
        // Every third line is along an axis, as in real programs.
        if (dice.below(3) == 0) to = dice.below(2) == 0 ? Point{from.z, to.r} : Point{to.z, from.r};
        return {from, to, {}, Sweep::Path::Line};
    }
    const bool clockwise = dice.below(2) == 0;
    for (;;) {
        const double radius = dice.between(1, 4);
        const double start = dice.between(0, 2 * kPi);
        const double turn = dice.between(0.1, dice.below(4) == 0 ? radians(350) : radians(150));
        const Point u{std::cos(start), std::sin(start)};
        const double end = start + (clockwise ? -turn : turn);
        const Point centre = from - radius * u;
        const Point to = centre + radius * Point{std::cos(end), std::sin(end)};
        if (to.r < c.rMin || to.r > c.rMax) continue;
        return {from, to, centre, clockwise ? Sweep::Path::ArcClockwise : Sweep::Path::ArcAnticlockwise};
    }
}

TEST_P(RandomPaths, SectionsAgree) {
    const Case& c = GetParam();
    auto setup = firstoff::Setup{};
    c.fit(setup);
    const ToolShape shape = toolShape(setup.tools[0].cutting);
    const std::vector<Point> polygon = polyline(setup.tools[0].cutting, kChordErrorMm);
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        shop::Dice dice(seed * 7919);
        Stock stock;
        stock.outerRadius = kRadius;
        stock.boreRadius = seed % 3 == 0 ? 5 : 0;
        stock.frontZ = kLength;
        Billet billet(stock);
        shop::GeosStock truth(0, kLength, stock.boreRadius, kRadius);
        Point at{kLength + 5, c.rMax};
        double removed = 0;
        for (int move = 0; move < 8; ++move) {
            const Sweep sweep = nextMove(c, at, dice);
            removed += billet.cut(sweep, shape, static_cast<CutId>(move)).volumeMm3;
            truth.cut(sweep, polygon, kChordErrorMm);
            at = sweep.to;
        }
        const std::vector<Loop> loops = sectionLoops(billet, tolerance::kSectionMm);
        EXPECT_LE(truth.farthestFrom(loops, 0.05, billet.grid().pitch), kAgreementMm) << c.name << " seed " << seed;
        const double start = Billet(stock).volumeMm3();
        EXPECT_NEAR(removed + billet.volumeMm3(), start, 1e-9 * start) << c.name << " seed " << seed;
    }
}

INSTANTIATE_TEST_SUITE_P(Tools, RandomPaths, testing::ValuesIn(kCases),
                         [](const testing::TestParamInfo<Case>& tool) { return std::string(tool.param.name); });

}  // namespace
}  // namespace firstoff
