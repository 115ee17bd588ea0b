// Sections with their true arcs and corners.
#include "sim/stock/exact_section.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/stock/history.h"
#include "sim/stock/sweep_profile.h"
#include "tests/support/geos_stock.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

std::size_t corners(const std::vector<SectionContour>& contours) {
    std::size_t count = 0;
    for (const SectionContour& contour : contours) count += contour.outline.size();
    return count;
}

// Volume of revolution (Pappus) of chords so fine that they do not matter: 1e-5 mm of 0.01 µm.
double volume(const std::vector<SectionContour>& contours) {
    double sum = 0;
    for (const SectionContour& contour : contours) {
        const std::vector<Point> points = polyline(contour.outline, 1e-7);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const Point a = points[i];
            const Point b = points[(i + 1) % points.size()];
            sum += cross(a, b) / 2 * (a.r + b.r) / 3 * 2 * kPi;
        }
    }
    return sum;
}

// Where the contours go: greatest distance of any column's surface from them, along r or square to a steep edge.
double farthestColumn(const Billet& billet, const std::vector<SectionContour>& contours) {
    std::vector<std::vector<double>> radii(static_cast<std::size_t>(billet.grid().columns));
    for (const SectionContour& contour : contours) {
        const std::vector<Point> points = polyline(contour.outline, 1e-8);
        for (std::size_t i = 0; i < points.size(); ++i) {
            Point a = points[i];
            Point b = points[(i + 1) % points.size()];
            if (a.z > b.z) std::swap(a, b);
            const Grid& grid = billet.grid();
            const int last = std::min(grid.columnNear(b.z), grid.columns - 1);
            for (int c = std::max(0, grid.columnNear(a.z)); c <= last; ++c) {
                if (grid.z(c) < a.z || grid.z(c) >= b.z) continue;
                radii[static_cast<std::size_t>(c)].push_back(a.r + (b.r - a.r) * (grid.z(c) - a.z) / (b.z - a.z));
            }
        }
    }
    double farthest = 0;
    std::vector<Interval> solids;
    for (int c = 0; c < billet.grid().columns; ++c) {
        std::vector<double>& found = radii[static_cast<std::size_t>(c)];
        std::sort(found.begin(), found.end());
        billet.intervals(c, solids);
        if (found.size() != 2 * solids.size()) return 1e9;
        for (std::size_t i = 0; i < solids.size(); ++i) {
            farthest = std::max(farthest, std::abs(found[2 * i] - solids[i].inner));
            farthest = std::max(farthest, std::abs(found[2 * i + 1] - solids[i].outer));
        }
    }
    return farthest;
}

// Nearest corner to a place of the drawing: work Z, X as diameter.
double nearest(const std::vector<SectionContour>& contours, int piece, Point datum, double x, double z) {
    double least = 1e9;
    for (const SectionContour& contour : contours) {
        if (contour.piece != piece) continue;
        for (const ContourCorner& corner : contour.outline) {
            least = std::min(least, distance(corner.at, {datum.z + z, x / 2}));
        }
    }
    return least;
}

// The corner at a place, and the arc that leaves it or ends there: radius and centre.
struct ArcSeen {
    double radius = 0;
    Point centre;
};
std::vector<ArcSeen> arcs(const std::vector<SectionContour>& contours, int piece, Point datum) {
    std::vector<ArcSeen> seen;
    for (const SectionContour& contour : contours) {
        for (std::size_t i = 0; i < contour.outline.size() && contour.piece == piece; ++i) {
            const ContourCorner& corner = contour.outline[i];
            if (corner.bulge == 0) continue;
            const Point chord = contour.outline[(i + 1) % contour.outline.size()].at - corner.at;
            const double turn = 4 * std::atan(corner.bulge);
            const Point centre = corner.at + 0.5 * chord + (1 / (2 * std::tan(turn / 2))) * leftOf(chord);
            seen.push_back({distance(centre, corner.at), centre - datum});
        }
    }
    return seen;
}

std::shared_ptr<const Trial> demo(const std::string& stem) {
    auto setup = readSetup(shop::readFile("assets/jobs/" + stem + ".toml"), stem + ".toml");
    return runTrial(readProgram(shop::readFile("assets/jobs/" + stem + ".nc"), stem + ".nc"), std::move(setup));
}

std::vector<SectionContour> finished(const Trial& trial) {
    StockCursor end(trial.stock);
    end.seek(static_cast<std::uint32_t>(trial.timeline.moves.size()), 0);
    return end.contours();
}

// Programs give 0.001 mm; a compensated path is reckoned in doubles. So corners are right to rounding, and 1 µm would
// be plenty.
constexpr double kCornerMm = 1e-6;

struct Corner {
    double x, z;
};

// Every corner of the drawing of the demo part, the blends of the finishing nose (0.4) and of the groove tool's corners
// (0.2) where the drawing has hollow corners.
TEST(ExactSection, HasEveryCornerOfTheDrawing) {
    const auto trial = demo("coupling-spigot");
    const std::vector<SectionContour> contours = finished(*trial);
    const Point datum = trial->setup.workOffsets[0];
    for (const Corner& corner :
         {Corner{0, 0}, Corner{22.99, 0}, Corner{24.99, -1}, Corner{35, -30}, Corner{35, -40}, Corner{41, -43},
          Corner{46, -43}, Corner{48, -44}, Corner{48, -50}, Corner{42.32, -50}, Corner{41.92, -50.2},
          Corner{41.92, -53.85}, Corner{42.32, -54.05}, Corner{48, -54.05}, Corner{48, -60}, Corner{0, -60}}) {
        EXPECT_LT(nearest(contours, 1, datum, corner.x, corner.z), kCornerMm) << "X" << corner.x << " Z" << corner.z;
    }
    // The hollow corner at X24.99 Z-15 has the nose in it: tangent points at r tan(a / 2) before and behind, a the
    // taper.
    const double a = std::atan(5.005 / 15);
    const double before = 0.4 * std::tan(a / 2);
    EXPECT_LT(nearest(contours, 1, datum, 24.99, -15 + before), kCornerMm);
    EXPECT_LT(nearest(contours, 1, datum, 24.99 + 2 * before * std::sin(a), -15 - before * std::cos(a)), kCornerMm);
    // 18 corners in all: those above, and nothing else.
    std::size_t ofPiece = 0;
    for (const SectionContour& contour : contours) ofPiece += contour.piece == 1 ? contour.outline.size() : 0;
    EXPECT_EQ(ofPiece, 18u);
    const std::vector<ArcSeen> seen = arcs(contours, 1, datum);
    std::vector<double> radii;
    for (const ArcSeen& arc : seen) radii.push_back(arc.radius);
    std::sort(radii.begin(), radii.end());
    ASSERT_EQ(radii.size(), 4u);
    for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(radii[i], (std::vector<double>{0.2, 0.2, 0.4, 3})[i], kCornerMm);
    for (const ArcSeen& arc : seen) {
        if (arc.radius > 1) {
            EXPECT_LT(distance(arc.centre, {-40, 20.5}), kCornerMm) << "fillet R3";
        }
    }
}

TEST(ExactSection, HasTheVolumeOfTheColumns) {
    for (const char* stem : {"coupling-spigot", "bored-bush", "grooved-pulley"}) {
        const auto trial = demo(stem);
        StockCursor end(trial->stock);
        end.seek(static_cast<std::uint32_t>(trial->timeline.moves.size()), 0);
        double columns = end.volumeMm3();
        for (const Severance& fall : trial->stock->severances()) columns += fall.volumeMm3;
        // Columns take faces on their borders, which round faces are on, and the mean of a slope: what is left is of
        // second order, a pitch squared a column.
        EXPECT_NEAR(volume(end.contours()), columns, 1e-6 * columns) << stem;
    }
}

// --- Elementary parts -----------------------------------------------------------------------------------------------

class Bench {
public:
    explicit Bench(const firstoff::Setup& setup) : setup_(setup), path_(setup), billet_(setup.stock) {}
    shop::TipPath& path() { return path_; }

    std::vector<SectionContour> section() {
        const CutPlan plan(path_.timeline(), path_.toolpath(), setup_);
        billet_ = Billet(setup_.stock);
        for (CutId cut = 0; cut < plan.moves(); ++cut) {
            for (const ToolShape& shape : plan.shapes(cut)) billet_.cut(plan.sweep(cut), shape, cut);
        }
        return exactSection(billet_, {plan, plan.moves(), std::nullopt}, tolerance::kSectionMm);
    }
    const Billet& billet() const { return billet_; }

private:
    firstoff::Setup setup_;
    shop::TipPath path_;
    Billet billet_;
};

// The blank's ends stand where they are, between two columns or not.
TEST(ExactSection, OfABarIsItsRectangle) {
    auto setup = shop::barStock(50, 60);
    setup.stock.frontZ = 90.0013;
    setup.stock.backZ = -3.0007;
    shop::addTurningTool(setup, 1, 'D', 0.4);
    const auto contours = Bench(setup).section();
    ASSERT_EQ(contours.size(), 1u);
    ASSERT_EQ(contours[0].outline.size(), 4u);
    for (Point corner : {Point{-3.0007, 0}, Point{90.0013, 0}, Point{90.0013, 25}, Point{-3.0007, 25}}) {
        EXPECT_LT(nearest(contours, 0, {}, 2 * corner.r, corner.z), 1e-12);
    }
    EXPECT_EQ(contours[0].cuts, std::vector<CutId>(4, kUncut));
}

// Faces and corners at places that no column stands at.
TEST(ExactSection, FacesStandWhereTheyWereCutBetweenTwoColumns) {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'D', 0.4).cutting =
        roundedPolygon({{0, 0}, {30, 0}, {30, 30}, {0, 30}}, {0, 0, 0, 0});
    Bench bench(setup);
    bench.path().tool(1).at(60, 95).rapid(40.0006, 95).feed(40.0006, 70.00083).rapid(60, 70.00083);
    bench.path().rapid(60, 88.7771).feed(-1, 88.7771).rapid(-1, 99);
    bench.path().rapid(45, 99).rapid(45, 50.12345).feed(48, 50.12345);
    const auto contours = bench.section();
    for (const Corner& corner : {Corner{40.0006, 88.7771}, Corner{0, 88.7771}, Corner{40.0006, 70.00083},
                                 Corner{45, 70.00083}, Corner{45, 50.12345}, Corner{50, 50.12345}}) {
        EXPECT_LT(nearest(contours, 0, {}, corner.x, corner.z), 1e-9) << corner.x << " " << corner.z;
    }
    EXPECT_EQ(corners(contours), 8u);
}

// A ball, a hollow and a bore with a cone, by a sharp tool whose path is the part.
TEST(ExactSection, ArcsAndTapersAreThoseOfTheProgram) {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'V', 0).cutting = roundedPolygon({{0, 0}, {4, 30}, {-4, 30}}, {0, 0, 0});
    shop::addDrill(setup, 3, 12, 118);
    Bench bench(setup);
    bench.path().tool(1).at(60, 90).rapid(0, 91).feed(0, 90);
    bench.path().anticlockwise(40, 70, 0, 70).feed(40, 65).clockwise(44, 55, 60, 61.8).feed(50, 52).rapid(60, 52);
    bench.path().tool(3).rapid(60, 120).rapid(0, 120).feed(0, 60).rapid(0, 120);
    const auto contours = bench.section();
    const double shoulder = 60 + 6 / std::tan(radians(59));
    const double mouth = 70 + std::sqrt(20 * 20 - 6 * 6);
    for (const Corner& corner : {Corner{0, 60}, Corner{12, shoulder}, Corner{12, mouth}, Corner{40, 70}, Corner{40, 65},
                                 Corner{44, 55}, Corner{50, 52}}) {
        EXPECT_LT(nearest(contours, 0, {}, corner.x, corner.z), kCornerMm) << corner.x << " " << corner.z;
    }
    EXPECT_EQ(corners(contours), 9u);
    // Chords of 1e-8 mm, seen along r where the arc is steep.
    EXPECT_LT(farthestColumn(bench.billet(), contours), 1e-7);
}

TEST(ExactSection, EveryEdgeKnowsItsCut) {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'D', 0.8, 93);
    Bench bench(setup);
    bench.path().tool(1).at(60, 95).rapid(40, 95).feed(40, 70).feed(46, 60).rapid(60, 60);
    const auto contours = bench.section();
    ASSERT_EQ(contours.size(), 1u);
    const SectionContour& contour = contours[0];
    ASSERT_EQ(contour.outline.size(), contour.cuts.size());
    for (std::size_t i = 0; i < contour.outline.size(); ++i) {
        const Point middle = 0.5 * (contour.outline[i].at + contour.outline[(i + 1) % contour.outline.size()].at);
        if (std::abs(middle.r - 20) < 1e-9) {
            EXPECT_EQ(contour.cuts[i], 1u);
        }
        if (middle.r > 20.5 && middle.r < 22.9 && middle.z > 61 && middle.z < 69) {
            EXPECT_EQ(contour.cuts[i], 2u);
        }
        if (middle.r == 25 || middle.r == 0) {
            EXPECT_EQ(contour.cuts[i], kUncut);
        }
    }
}

// Within a move, the section has the curve of the part that is done.
TEST(ExactSection, WithinAMove) {
    const auto trial = shop::run("T0101\nG97 S800 M03\nG00 X40. Z2.\nG01 Z-20. F0.2\nG00 X70.\nG28 U0 W0\nM30\n", [] {
        auto setup = shop::barStock(50, 60);
        shop::addTurningTool(setup, 1, 'D', 0.4, 93);
        return setup;
    }());
    std::uint32_t cut = 0;
    while (trial->timeline.moves[cut].kind != MoveKind::Feed) ++cut;
    StockCursor cursor(trial->stock);
    for (double fraction : {0.123, 0.51, 0.9}) {
        cursor.seek(cut, fraction);
        const double tip = 2 - 22 * fraction;
        const auto contours = cursor.contours();
        EXPECT_LT(nearest(contours, 0, trial->setup.workOffsets[0], 40, tip + 0.4), kCornerMm) << fraction;
    }
}

// A contour in blocks of 0.01 mm becomes a polyline within the section's tolerance, not thousands of edges.
TEST(ExactSection, FreeContoursInShortBlocksStayShort) {
    const auto setup = shop::wavyContourSetup();
    const shop::TipPath path = shop::wavyContour(setup, 9000);
    const CutPlan plan(path.timeline(), path.toolpath(), setup);
    Billet billet(setup.stock);
    for (CutId cut = 0; cut < plan.moves(); ++cut) {
        for (const ToolShape& shape : plan.shapes(cut)) billet.cut(plan.sweep(cut), shape, cut);
    }
    const auto contours = exactSection(billet, {plan, plan.moves(), std::nullopt}, tolerance::kSectionMm);
    EXPECT_LE(farthestColumn(billet, contours), tolerance::kSectionMm * (1 + 1e-6));
    // 80 mm of waves of 16 mm with radii of curvature over 17 mm: chords of 2 sqrt(2 * 17 * 0.0005) = 0.26 mm, so some
    // 300; the corners of the blocks cost a few more.
    EXPECT_LT(corners(contours), 1000u);
}

// --- Random paths against a polygon library -------------------------------------------------------------------------

constexpr double kChordErrorMm = 1e-4;

struct Tooling {
    const char* name;
    void (*fit)(firstoff::Setup&);
    double rMin, rMax;  // where the tip may go
    bool alongAxis;     // a drill
};

const Tooling kTooling[] = {
    {"D_r08", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'D', 0.8, 93); }, 6, 24, false},
    {"C_r04", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'C', 0.4, 95); }, 6, 24, false},
    {"V_r02", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'V', 0.2, 107.5); }, 6, 24, false},
    {"S_sharp", [](firstoff::Setup& s) { shop::addTurningTool(s, 1, 'S', 0, 75); }, 6, 24, false},
    {"groove3", [](firstoff::Setup& s) { shop::addGroovingTool(s, 1, 3, 0.2); }, 6, 24, false},
    {"boring", [](firstoff::Setup& s) { shop::addBoringBar(s, 1, 'C', 0.4); }, 11, 19, false},
    {"drill8", [](firstoff::Setup& s) { shop::addDrill(s, 1, 8); }, 0, 0, true},
};

class ExactRandomPaths : public testing::TestWithParam<Tooling> {};

// Three moves in four are lines, a third of them along an axis; the others arcs of 1 to 4 mm.
void addMove(const Tooling& tooling, shop::Dice& dice, shop::TipPath& path) {
    const Point from{path.tipZ(), path.tipX() / 2};
    if (tooling.alongAxis || dice.below(4) > 0) {
        Point to{dice.between(5, 55), tooling.alongAxis ? 0 : dice.between(tooling.rMin, tooling.rMax)};
        if (dice.below(3) == 0) to = dice.below(2) == 0 ? Point{from.z, to.r} : Point{to.z, from.r};
        path.feed(2 * to.r, to.z);
        return;
    }
    shop::addArc(tooling.rMin, tooling.rMax, dice, path);
}

TEST_P(ExactRandomPaths, AgreeWithPolygonsWithinTwoMicrometres) {
    const Tooling& tooling = GetParam();
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        shop::Dice dice(seed * 104729);
        auto setup = firstoff::Setup{};
        tooling.fit(setup);
        setup.stock.outerRadius = 20;
        setup.stock.boreRadius = seed % 3 == 0 ? 5 : 0;
        setup.stock.frontZ = 50;
        Bench bench(setup);
        bench.path().tool(1).at(2 * tooling.rMax, 55);
        for (int i = 0; i < 8; ++i) addMove(tooling, dice, bench.path());
        const std::vector<SectionContour> contours = bench.section();

        const CutPlan plan(bench.path().timeline(), bench.path().toolpath(), setup);
        shop::GeosStock truth(0, 50, setup.stock.boreRadius, 20);
        const std::vector<Point> polygon = polyline(setup.tools[0].cutting, kChordErrorMm);
        for (CutId cut = 0; cut < plan.moves(); ++cut) truth.cut(plan.sweep(cut), polygon, kChordErrorMm);
        std::vector<Loop> loops;
        for (const SectionContour& contour : contours) {
            loops.push_back({0, polyline(contour.outline, kChordErrorMm), {}});
        }
        // 0.3 µm of chords; the rest where something smaller than a column hides between two. Metal and gaps thinner
        // than a column are left out.
        EXPECT_LE(truth.farthestFrom(loops, 0.05, bench.billet().grid().pitch), 0.002)
            << tooling.name << " seed " << seed;
        // Chords of 1e-8 mm, seen along r where an arc is all but upright.
        EXPECT_LT(farthestColumn(bench.billet(), contours), 1e-5) << tooling.name << " seed " << seed;
        // A path of eight moves: each leaves at most its strip, both its ends and a face or two; arcs may turn back
        // twice.
        EXPECT_LT(corners(contours), 100u) << tooling.name << " seed " << seed;
        const double columns = bench.billet().volumeMm3();
        // Faces lie up to half a pitch from the border that the columns take them for.
        EXPECT_NEAR(volume(contours), columns, 0.001 * 2 * kPi * 20 * 20 * 8) << tooling.name << " seed " << seed;
    }
}

INSTANTIATE_TEST_SUITE_P(Tools, ExactRandomPaths, testing::ValuesIn(kTooling),
                         [](const testing::TestParamInfo<Tooling>& tool) { return std::string(tool.param.name); });

}  // namespace
}  // namespace firstoff
