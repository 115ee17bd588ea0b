// Every shape of tool on random paths, cut by the billet and by a general-purpose polygon library: the sections with
// their arcs must agree within two micrometres. Edges at centre height; a tool that reaches past the axis cuts what the
// bar turns towards it, so the library cuts with its mirror image as well.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/cut_plan.h"
#include "sim/stock/exact_section.h"
#include "tests/support/geos_stock.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kChordErrorMm = 1e-4;
// 0.1 µm for each of three chord errors (tool, path, section); the rest where something smaller than a column hides
// between two. Metal and gaps thinner than a column, which no column stands in, are left out.
constexpr double kAgreementMm = 0.002;
constexpr double kMassAgreement = 1e-9;  // rounding of sums

constexpr double kLength = 50;
constexpr double kRadius = 20;
constexpr int kMoves = 8;
constexpr double kFarthestArcMm = 8;  // from its ends: no arc is larger than 4 mm
constexpr std::uint64_t kPaths = 4;   // of each tool

// Which ways a tool is sent.
enum class Way {
    Outside,  // turns, plunges, faces past the axis
    Inside,   // bores
    Face,     // stands along Z
    Axis,     // up and down the axis
};

struct Row {
    std::string name;
    Way way;
    std::function<Tool(shop::Dice&)> tool;
};

void PrintTo(const Row& row, std::ostream* out) {
    *out << row.name;
}

// --- Tools ----------------------------------------------------------------------------------------------------------

struct Insert {
    char letter;
    double angleDeg, enteringDeg;
};

// Letters of ISO 1832 that turning uses, each at an entering angle usual for it (common practice, no source).
const Insert kInserts[] = {{'C', 80, 95}, {'D', 55, 93}, {'K', 55, 93},    {'R', 0, 90},
                           {'S', 90, 75}, {'T', 60, 91}, {'V', 35, 107.5}, {'W', 80, 95}};

Tool insertTool(const Insert& insert, ToolKind kind, int tip, shop::Dice& dice) {
    static constexpr double kNoses[] = {0, 0.2, 0.4, 0.8, 1.2};
    Tool tool;
    tool.kind = kind;
    tool.insertShape = insert.letter;
    tool.insertAngle = radians(insert.angleDeg);
    tool.enteringAngle = radians(insert.enteringDeg);
    tool.tipNumber = tip;
    tool.edgeLength = kind == ToolKind::Boring ? 6 : insert.letter == 'R' ? 8 : 12;
    if (insert.letter == 'K') tool.edgeWidth = 0.7 * tool.edgeLength;
    tool.noseRadius = insert.letter == 'R' ? tool.edgeLength / 2 : kNoses[dice.below(5)];
    return tool;
}

Tool blade(ToolKind kind, int tip, double width, double first, double second, double frontDeg) {
    Tool tool;
    tool.kind = kind;
    tool.tipNumber = tip;
    tool.width = width;
    tool.cornerRadius = first;
    tool.secondCornerRadius = second;
    tool.frontAngle = radians(frontDeg);
    tool.cuttingDepth = 22;
    return tool;
}

Tool axisTool(ToolKind kind, double diameter, double pointDeg) {
    Tool tool;
    tool.kind = kind;
    tool.tipNumber = 0;
    tool.diameter = diameter;
    tool.pointAngle = radians(pointDeg);
    tool.fluteLength = 80;
    return tool;
}

Tool threadingTool(bool inside, double angleDeg, double nose, double flat) {
    Tool tool;
    tool.kind = ToolKind::Threading;
    tool.inside = inside;
    tool.tipNumber = inside ? 6 : 8;
    tool.threadAngle = radians(angleDeg);
    tool.noseRadius = nose;
    tool.width = flat;
    tool.cuttingDepth = 4;
    return tool;
}

void addInserts(std::vector<Row>& rows) {
    for (const Insert& insert : kInserts) {
        const auto add = [&](const char* where, Way way, ToolKind kind, int tip) {
            rows.push_back({std::string(1, insert.letter) + where, way,
                            [=](shop::Dice& dice) { return insertTool(insert, kind, tip, dice); }});
        };
        add("_outside_right", Way::Outside, ToolKind::Turning, 3);
        add("_outside_left", Way::Outside, ToolKind::Turning, 4);
        add("_inside_right", Way::Inside, ToolKind::Boring, 2);
        add("_inside_left", Way::Inside, ToolKind::Boring, 1);
    }
    for (int tip : {3, 4}) {
        rows.push_back({"C_wiper_" + std::to_string(tip), Way::Outside, [tip](shop::Dice& dice) {
                            Tool tool = insertTool(kInserts[0], ToolKind::Turning, tip, dice);
                            tool.noseRadius = 0.8;
                            tool.wiperFlat = dice.between(0.1, 0.5);
                            return tool;
                        }});
    }
}

void addBlades(std::vector<Row>& rows) {
    const auto add = [&](const char* name, Way way, std::function<Tool(shop::Dice&)> tool) {
        rows.push_back({name, way, std::move(tool)});
    };
    add("groove_two_radii", Way::Outside,
        [](shop::Dice& dice) { return blade(ToolKind::Grooving, 3, 3, dice.between(0, 0.8), 0.4, 0); });
    add("groove_full_radius", Way::Outside, [](shop::Dice& dice) {
        const double width = dice.between(2, 5);
        return blade(ToolKind::Grooving, 3, width, width / 2, width / 2, 0);
    });
    add("groove_gauged_at_its_other_side", Way::Outside,
        [](shop::Dice& dice) { return blade(ToolKind::Grooving, 4, dice.between(2, 5), 0.2, 0.6, 0); });
    add("parting_right", Way::Outside,
        [](shop::Dice& dice) { return blade(ToolKind::Parting, 3, 3, 0.2, 0.2, dice.between(4, 15)); });
    add("parting_left", Way::Outside,
        [](shop::Dice& dice) { return blade(ToolKind::Parting, 3, 3, 0.2, 0.2, -dice.between(4, 15)); });
    add("groove_inside", Way::Inside, [](shop::Dice&) {
        Tool tool = blade(ToolKind::Grooving, 2, 3, 0.2, 0.4, 0);
        tool.cuttingDepth = 5;
        return tool;
    });
    add("face_groove", Way::Face, [](shop::Dice& dice) {
        Tool tool = blade(ToolKind::Grooving, 3, dice.between(2, 5), 0.2, 0.5, 0);
        tool.face = true;
        return tool;
    });
    add("face_groove_gauged_outside", Way::Face, [](shop::Dice&) {
        Tool tool = blade(ToolKind::Grooving, 2, 4, 2, 2, 0);
        tool.face = true;
        return tool;
    });
    add("thread_v", Way::Outside, [](shop::Dice& dice) { return threadingTool(false, 60, dice.between(0, 0.3), 0); });
    add("thread_v_inside", Way::Inside, [](shop::Dice&) { return threadingTool(true, 60, 0.1, 0); });
    add("thread_trapezoid", Way::Outside,
        [](shop::Dice& dice) { return threadingTool(false, 30, 0.1, dice.between(0.5, 1.5)); });
    add("thread_full_profile", Way::Outside, [](shop::Dice&) {
        Tool tool = threadingTool(false, 60, 0.25, 0);
        tool.pitch = 2;
        tool.cuttingDepth = 1.227;
        tool.profile = ThreadProfile::Full;
        return tool;
    });
}

void addAxisTools(std::vector<Row>& rows) {
    const auto add = [&](const char* name, std::function<Tool(shop::Dice&)> tool) {
        rows.push_back({name, Way::Axis, std::move(tool)});
    };
    add("drill", [](shop::Dice& dice) {
        return axisTool(ToolKind::Drill, dice.between(6, 20), dice.below(2) == 0 ? 118 : 140);
    });
    add("flat_bottom_drill", [](shop::Dice& dice) { return axisTool(ToolKind::Drill, dice.between(6, 20), 179); });
    add("centre_drill_a", [](shop::Dice&) {
        Tool tool = axisTool(ToolKind::CentreDrill, 4, 118);
        tool.drillSteps = {{5, 5, radians(60)}};
        tool.fluteLength = 30;
        return tool;
    });
    add("centre_drill_b", [](shop::Dice&) {
        Tool tool = axisTool(ToolKind::CentreDrill, 4, 118);
        const DrillStep cone{5, 4.25, radians(60)};
        tool.drillSteps = {cone, {5 + 2.25 / std::tan(radians(30)), 7, radians(120)}};
        tool.fluteLength = 30;
        return tool;
    });
    add("step_drill", [](shop::Dice& dice) {
        Tool tool = axisTool(ToolKind::StepDrill, dice.between(10, 12), 118);
        tool.drillSteps = {{dice.between(8, 15), dice.between(7, 8), radians(90)},
                           {dice.between(25, 30), dice.between(9, 14), kPi}};
        return tool;
    });
    add("reamer", [](shop::Dice& dice) {
        Tool tool = axisTool(ToolKind::Reamer, dice.between(11, 16), 0);
        tool.chamferLength = 1;
        tool.chamferAngle = radians(45);
        return tool;
    });
    add("tap_fed_like_a_drill", [](shop::Dice& dice) {
        Tool tool = axisTool(ToolKind::Tap, dice.between(10, 20), 0);
        tool.pitch = 1.5;
        return tool;
    });
}

std::vector<Row> rows() {
    std::vector<Row> rows;
    addInserts(rows);
    addBlades(rows);
    addAxisTools(rows);
    return rows;
}

// --- Paths ----------------------------------------------------------------------------------------------------------

Range radiiOf(Way way) {
    switch (way) {
        case Way::Outside:
            return {6, 24};
        case Way::Inside:
            return {9, 18};
        case Way::Face:
            return {4, 22};
        case Way::Axis:
            break;
    }
    return {0, 0};
}

Range depthsOf(Way way) {
    return way == Way::Face ? Range{35, 55} : Range{5, 55};
}

// Of five moves two are slanting lines, one is a plunge, a cut along Z or, by tools that can, a face past the axis and
// back, and two are arcs of 1 to 4 mm.
void addMove(Way way, shop::Dice& dice, shop::TipPath& path) {
    const Range radii = radiiOf(way), depths = depthsOf(way);
    const double x = 2 * dice.between(radii.min, radii.max), z = dice.between(depths.min, depths.max);
    if (way == Way::Axis) {
        path.feed(0, z);
        return;
    }
    switch (dice.below(5)) {
        case 0:
        case 1:
            path.feed(x, z);
            return;
        case 2:
            if (way == Way::Outside && dice.below(2) == 0) {
                path.feed(2 * radii.max, kLength - dice.between(0, 4));
                path.feed(dice.between(-3, 0), path.tipZ()).feed(2 * radii.max, path.tipZ());
            } else if (dice.below(2) == 0) {
                path.feed(path.tipX(), z);
            } else {
                path.feed(x, path.tipZ());
            }
            return;
        default:
            shop::addArc(radii.min, radii.max, dice, path);
    }
}

// --- Comparison -----------------------------------------------------------------------------------------------------

Sweep acrossTheAxis(Sweep sweep) {
    for (Point* p : {&sweep.from, &sweep.to, &sweep.centre}) p->r = -p->r;
    if (sweep.path == Sweep::Path::Line) return sweep;
    const bool clockwise = sweep.path == Sweep::Path::ArcClockwise;
    sweep.path = clockwise ? Sweep::Path::ArcAnticlockwise : Sweep::Path::ArcClockwise;
    return sweep;
}

class Comparison {
public:
    Comparison(const Tool& tool, double bore) {
        setup_.tools = {tool};
        giveShape(setup_.tools[0]);
        setup_.tools[0].station = 1;
        setup_.stock.outerRadius = kRadius;
        setup_.stock.boreRadius = bore;
        setup_.stock.frontZ = kLength;
    }
    const firstoff::Setup& setup() const { return setup_; }

    void run(const shop::TipPath& path, const std::string& name) const {
        const CutPlan plan(path.timeline(), path.toolpath(), setup_);
        Billet billet(setup_.stock);
        const double start = billet.volumeMm3();
        double removed = 0;
        shop::GeosStock truth(0, kLength, setup_.stock.boreRadius, kRadius);
        for (CutId cut = 0; cut < plan.moves(); ++cut) {
            const Sweep sweep = plan.sweep(cut);
            for (const ToolShape& shape : plan.shapes(cut)) removed += billet.cut(sweep, shape, cut).volumeMm3;
            cutWithPolygons(sweep, truth);
        }
        EXPECT_NEAR(removed + billet.volumeMm3(), start, kMassAgreement * start) << name;
        EXPECT_GT(removed, 0) << name;
        std::vector<Loop> loops;
        for (const SectionContour& contour : exactSection(billet, {plan, plan.moves(), {}}, tolerance::kSectionMm)) {
            loops.push_back({0, polyline(contour.outline, kChordErrorMm), {}});
        }
        EXPECT_LE(truth.farthestFrom(loops, 0.05, billet.grid().pitch), kAgreementMm) << name;
    }

private:
    void cutWithPolygons(const Sweep& sweep, shop::GeosStock& truth) const {
        const Tool& tool = setup_.tools[0];
        const auto cut = [&](const Outline& outline) {
            std::vector<Point> polygon = polyline(outline, kChordErrorMm);
            truth.cut(sweep, polygon, kChordErrorMm);
            const bool clear = std::min(sweep.from.r, sweep.to.r) + boundingBox(outline).rMin > kFarthestArcMm;
            if (clear || worksOnTheAxis(tool.kind)) return;  // or symmetrical
            for (Point& p : polygon) p.r = -p.r;
            truth.cut(acrossTheAxis(sweep), polygon, kChordErrorMm);
        };
        cut(tool.cutting);
        for (const Outline& step : tool.steps) cut(step);
    }

    firstoff::Setup setup_;
};

class EveryTool : public testing::TestWithParam<Row> {};

TEST_P(EveryTool, CutsRandomPathsLikeAPolygonLibrary) {
    const Row& row = GetParam();
    for (std::uint64_t seed = 1; seed <= kPaths; ++seed) {
        shop::Dice dice(seed * 15485863);
        const Comparison comparison(row.tool(dice), seed % 3 == 0 ? 2.5 : 0);
        shop::TipPath path(comparison.setup());
        path.tool(1).at(2 * radiiOf(row.way).max, kLength + 5);
        for (int i = 0; i < kMoves; ++i) addMove(row.way, dice, path);
        comparison.run(path, row.name + " seed " + std::to_string(seed));
    }
}

TEST(EveryToolTogether, IsTwoHundredPathsAndMore) {
    EXPECT_GE(rows().size() * kPaths, 200u);
}

INSTANTIATE_TEST_SUITE_P(Shapes, EveryTool, testing::ValuesIn(rows()),
                         [](const testing::TestParamInfo<Row>& row) { return row.param.name; });

}  // namespace
}  // namespace firstoff
