// Finish of turned surfaces against formulas of the trade and published rows.
#include "sim/trial/finish.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "sim/base/units.h"
#include "tests/support/reference_rows.h"
#include "tests/support/tip_path.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

constexpr double kDatum = 89;  // lathe z of Z0 on the bar of these tests

using Side = SurfaceSpan::Side;

SurfaceSpan outside(double zFrom, double zTo) {
    return {Side::Outer, kDatum + zFrom, kDatum + zTo, 0};
}

// A 60 mm bar and a 55° insert held so that its nose alone cuts up to a feed of r: edges at 93° and 32° to the axis.
firstoff::Setup bench(double noseRadius) {
    auto setup = shop::barStock(60, 60);
    shop::addTurningTool(setup, 1, 'D', noseRadius, 93);
    return setup;
}

// The nose is put where its lowest point runs at X50.
std::string turning(double feed, double length = 20) {
    return fmt::format("T0101\nG97 S800 M03\nG00 X50. Z2.\nG01 Z-{} F{:.6f}\nG00 X70.\nG28 U0 W0\nM30\n", length, feed);
}

double tallestCusp(const FinishReport& report) {
    double tallest = 0;
    for (const auto& peak : report.marks.profile.peaks) tallest = std::max(tallest, peak.height);
    return tallest;
}

// The same profile without a filter.
Roughness unfiltered(const FinishReport& report) {
    return roughnessOf(report.marks.profile, 1e6);
}

// --- Published rows -------------------------------------------------------------------------------------------------

// Rows of tests/reference/surface_finish.csv with a feed and a nose radius whose figures are those of the formulas.
// Left out: SF03 to SF06 (formulas without figures), SF07 and SF08 (empirical allowances of 43 and 44 % on Ra), SF09
// and SF10 (readings off a chart that lies 16 and 21 % below the formula), RZ… (conversions between grades).
TEST(Finish, AgreesWithPublishedRows) {
    int rows = 0;
    for (const shop::ReferenceRow& row : shop::referenceRows("surface_finish.csv")) {
        const std::string& kind = row.text("kind");
        const std::string& id = row.text("id");
        if (kind != "computed grid" && id != "SF01" && id != "SF02") continue;
        ++rows;
        const double f = row.number("feed_mm_per_rev").value();
        const double r = row.number("nose_radius_mm").value();
        const auto trial = shop::run(turning(f), bench(r));
        const FinishReport report = finishOf(*trial, outside(-19, -1));
        ASSERT_EQ(report.trouble, "") << id;
        ASSERT_TRUE(report.theory) << id;
        EXPECT_NEAR(report.marks.feedMax, f, 1e-9) << id;
        // The parabola is within 2 % of the circle as long as f is less than about half of r.
        const Roughness whole = unfiltered(report);
        const double rtCircle = 1000 * (r - std::sqrt(r * r - f * f / 4));
        EXPECT_NEAR(1000 * tallestCusp(report), rtCircle, 1e-6 * rtCircle) << id;
        // The lowest place need not be one of the 400 heights per mark: 1e-5.
        EXPECT_NEAR(1000 * whole.rt, rtCircle, 2e-5 * rtCircle) << id;
        if (f <= 0.5 * r) {
            EXPECT_NEAR(1000 * whole.rt, row.number("Rt_or_Rz_um").value(), 0.02 * rtCircle) << id;
            EXPECT_NEAR(1000 * whole.ra, row.number("recomputed_Ra_parabola_um").value(), 0.02 * 1000 * whole.ra) << id;
        } else {
            EXPECT_GT(1000 * whole.rt, 1.01 * row.number("Rt_or_Rz_um").value()) << id;
        }
        // The filter takes what it must of marks that are wide for its cut-off, and says so.
        const Roughness& filtered = report.roughness;
        ASSERT_TRUE(filtered.filtered()) << id;
        EXPECT_EQ(filtered.sections, 5) << id;
        EXPECT_EQ(filtered.cutOff, cutOffFor(f)) << id;
        const double lost = passedIntoMeanLine(f, filtered.cutOff);
        EXPECT_NEAR(filtered.rt, (1 - lost) * whole.rt, 0.02 * whole.rt) << id;
        if (f <= 0.5 * r) {
            EXPECT_NEAR(filtered.ra, (1 - lost) * report.theory->ra, 0.02 * report.theory->ra) << id;
        }
        EXPECT_NEAR(filtered.rz, filtered.rt, 0.005 * whole.rt) << id;
        EXPECT_NEAR(filtered.rsm.value(), f, 0.002 * f) << id;
        const bool told = std::any_of(report.notes.begin(), report.notes.end(), [](const std::string& note) {
            return note.find("mean line") != std::string::npos;
        });
        EXPECT_EQ(told, lost > 0.01) << id;
    }
    EXPECT_EQ(rows, 53);
}

// --- Other edges ----------------------------------------------------------------------------------------------------

struct Edges {
    const char* name;
    double kappa, kappa2;  // entering angle of the leading edge, and of the trailing one, degrees
    double flat;           // wiper flat between them, mm
    double feed;
};

// Sharp tool: Rt = f / (cot kappa + cot kappa') (textbooks of metal cutting; elementary). A wiper flat takes its length
// off the feed.
TEST(Finish, OfASharpToolAndOfAWiper) {
    for (const Edges& row : {Edges{"sharp", 75, 25, 0, 0.2}, Edges{"sharp and blunt angled", 45, 45, 0, 0.15},
                             Edges{"wiper shorter than the feed", 75, 15, 0.12, 0.2},
                             Edges{"wiper longer than the feed", 75, 15, 0.3, 0.2}}) {
        auto setup = bench(0.4);
        const double k = radians(row.kappa);
        const double k2 = radians(row.kappa2);
        std::vector<Point> corners{
            {0, 0}, {row.flat + 20 * std::cos(k2), 20 * std::sin(k2)}, {-8 * std::cos(k), 8 * std::sin(k)}};
        if (row.flat > 0) corners.insert(corners.begin() + 1, Point{row.flat, 0});
        setup.tools[0].cutting = roundedPolygon(corners, std::vector<double>(corners.size(), 0.0));
        const auto trial = shop::run(turning(row.feed), setup);
        const FinishReport report = finishOf(*trial, outside(-19, -1));
        ASSERT_EQ(report.trouble, "") << row.name;
        const double left = std::max(0.0, row.feed - row.flat);
        const double rt = left / (1 / std::tan(k) + 1 / std::tan(k2));
        EXPECT_NEAR(tallestCusp(report), rt, 1e-9) << row.name;
        EXPECT_NEAR(unfiltered(report).rt, rt, 1e-3 * rt + 1e-9) << row.name;
        EXPECT_FALSE(report.theory) << row.name;
        EXPECT_EQ(report.marks.edgePart, 1) << row.name;
        if (row.flat == 0) {
            EXPECT_NEAR(unfiltered(report).ra, rt / 4, 0.01 * rt) << row.name << ": a triangle's mean is a quarter";
        }
    }
}

// The trailing edge of a C insert at 95° stands 5° off the cylinder: a nose of 0.4 fed at 0.1 leaves its circle where
// that rises by 5°, and the edge carries on from there.
TEST(Finish, ATrailingEdgeTakesPartBehindAShallowNose) {
    auto setup = bench(0.4);
    setup.tools.clear();
    shop::addTurningTool(setup, 1, 'C', 0.4, 95);
    const auto trial = shop::run(turning(0.1), setup);
    const FinishReport report = finishOf(*trial, outside(-19, -1));
    ASSERT_EQ(report.trouble, "");
    // Edge: height r (1 - cos 5°) + tan 5° (x - r sin 5°) at x right of the lowest point; circle of the next mark at
    // f - x left of its own. Solved by halving.
    const double r = 0.4, f = 0.1, a = radians(5);
    double low = 0, high = f;
    for (int i = 0; i < 60; ++i) {
        const double x = (low + high) / 2;
        const double edge = r * (1 - std::cos(a)) + std::tan(a) * (x - r * std::sin(a));
        (edge < r - std::sqrt(r * r - (f - x) * (f - x)) ? low : high) = x;
    }
    EXPECT_NEAR(tallestCusp(report), r - std::sqrt(r * r - (f - low) * (f - low)), 1e-9);
    EXPECT_FALSE(report.theory);
    EXPECT_GT(report.marks.edgePart, 0.1);
    EXPECT_LT(report.marks.edgePart, 0.3);
}

TEST(Finish, ABladeFedSidewaysLeavesNothingAndSaysSo) {
    auto setup = shop::barStock(60, 60);
    shop::addGroovingTool(setup, 1, 3, 0.2);
    const auto trial = shop::run(turning(0.1), setup);
    const FinishReport report = finishOf(*trial, outside(-19, -1));
    ASSERT_EQ(report.trouble, "");
    EXPECT_LT(report.roughness.rt, 1e-9);
    EXPECT_FALSE(report.roughness.rsm);
    EXPECT_FALSE(report.notes.empty());
}

// --- Other surfaces -------------------------------------------------------------------------------------------------

double circleHeight(double f, double r) {
    return r - std::sqrt(r * r - f * f / 4);
}

// Feed counts along the path, so a taper has the cusps of a cylinder, square to itself.
TEST(Finish, OfTapers) {
    for (double endX : {50.0, 52.0, 56.0, 59.0}) {
        const auto trial = shop::run(
            fmt::format("T0101\nG97 S800 M03\nG00 X50. Z1.\nG01 Z0 F0.2\nX{} Z-8.\nG00 X70.\nG28 U0 W0\nM30\n", endX),
            bench(0.8));
        const FinishReport report = finishOf(*trial, outside(-7, -1));
        ASSERT_EQ(report.trouble, "") << endX;
        // Columns know the taper to their own rounding; between them it is straight.
        EXPECT_NEAR(tallestCusp(report), circleHeight(0.2, 0.8), 1e-8) << endX;
        EXPECT_NEAR(report.roughness.rsm.value(), 0.2, 1e-4) << endX;
        EXPECT_TRUE(report.theory) << endX;
    }
}

TEST(Finish, OfABore) {
    auto setup = shop::barStock(60, 60, 1, 30);
    // A tip that points outwards, 32° behind and 93° in front, as above.
    Tool& bar = shop::addBoringBar(setup, 1, 'D', 0.4, 93);
    bar.cutting = toolOutline(bar);
    const auto trial =
        shop::run("T0101\nG97 S800 M03\nG00 X32. Z2.\nG01 Z-20. F0.15\nG00 X28.\nZ50.\nG28 U0 W0\nM30\n", setup);
    const FinishReport report = finishOf(*trial, {Side::Inner, kDatum - 19, kDatum - 1, 0});
    ASSERT_EQ(report.trouble, "");
    EXPECT_NEAR(tallestCusp(report), circleHeight(0.15, 0.4), 1e-9);
}

// Faced with a round insert of 6 mm, clamp and surface speed notwithstanding: feed per revolution is feed per
// revolution.
TEST(Finish, OfAFace) {
    auto setup = shop::barStock(60, 60);
    Tool& round = shop::addTurningTool(setup, 1, 'C', 0.4);
    round.insertShape = 'R';
    round.edgeLength = 6;
    round.noseRadius = 3;
    round.cutting = toolOutline(round);
    const auto trial =
        shop::run("T0101\nG50 S1500\nG96 S200 M03\nG00 X66. Z0\nG01 X-6. F0.25\nG00 Z5.\nG28 U0 W0\nM30\n", setup);
    const FinishReport report = finishOfFace(*trial, kDatum, 5, 25);
    ASSERT_EQ(report.trouble, "");
    EXPECT_EQ(report.span.side, Side::FrontFace);
    EXPECT_NEAR(tallestCusp(report), circleHeight(0.25, 3), 1e-9);
    EXPECT_NEAR(report.roughness.ra, noseTheory(0.25, 3).ra, 0.02 * report.roughness.ra);
    // By line: the whole face.
    const auto byLine = finishOfBlock(*trial, 4);
    ASSERT_EQ(byLine.size(), 1u);
    EXPECT_EQ(byLine[0].span.side, Side::FrontFace);
    EXPECT_NEAR(byLine[0].span.to, 30, 1e-9);
    EXPECT_NEAR(byLine[0].roughness.ra, report.roughness.ra, 0.02 * report.roughness.ra);
}

// Feed per minute at surface speed: the spindle gains towards the centre, and the marks get closer.
TEST(Finish, MarksGetCloserWhereTheSpindleGains) {
    auto setup = bench(0.8);
    const auto trial = shop::run(
        "T0101\nG50 S4000\nG96 S200 M03\nG00 X40. Z2.\nG98\nG01 Z-1. F200.\nX58. Z-13.\nG00 X70.\nG28 U0 W0\nM30\n",
        setup);
    const FinishReport report = finishOf(*trial, outside(-12, -2));
    ASSERT_EQ(report.trouble, "");
    // f = 200 / N, N = 200000 / (2 pi r), r the programmed radius of the marks that show at the ends of the profile.
    const auto feedAt = [](double r) { return 200 * 2 * kPi * r / 200000; };
    const double first = report.places.front().r;
    const double last = report.places.back().r;
    EXPECT_NEAR(report.marks.feedMax, feedAt(std::max(first, last)), 0.01 * report.marks.feedMax);
    EXPECT_NEAR(report.marks.feedMin, feedAt(std::min(first, last)), 0.01 * report.marks.feedMin);
    EXPECT_FALSE(report.theory);
    EXPECT_FALSE(report.notes.empty());
}

// A convex arc of 10 mm on the part, cut by a nose of 0.8 on a path of 10.8: cusps where two nose circles meet, seen
// along the radius; and a hollow one.
TEST(Finish, OfArcs) {
    // Round insert gauged at its centre: the path is that of the centre.
    auto setup = shop::barStock(60, 60);
    Tool& round = shop::addTurningTool(setup, 1, 'C', 0.8);
    round.insertShape = 'R';
    round.edgeLength = 1.6;
    round.tipNumber = 0;
    round.cutting = toolOutline(round);
    const double rho = 0.8, f = 0.2;
    struct Arc {
        const char* program;
        double path, part;
    };
    for (const Arc& arc :
         {Arc{"G01 Z0\nG03 X51.6 Z-10.8 R10.8", 10.8, 10}, Arc{"G01 Z0\nG02 X48.4 Z-9.2 R9.2", 9.2, 10}}) {
        const auto trial = shop::run(
            fmt::format("T0101\nG97 S800 M03\nG00 X30. Z3.\nG01 F0.2\n{}\nG00 X70.\nG28 U0 W0\nM30\n", arc.program),
            setup);
        const auto reports = finishOfBlock(*trial, 5);
        ASSERT_EQ(reports.size(), 1u) << arc.path;
        const FinishReport& report = reports[0];
        ASSERT_EQ(report.trouble, "");
        const double half = f / arc.path / 2;
        const double along = arc.path * std::cos(half);
        const double across = std::sqrt(rho * rho - std::pow(arc.path * std::sin(half), 2));
        const double cusp = arc.path > arc.part ? along - across - arc.part : arc.part - (along + across);
        // The guide runs straight from column to column: 2 µm of length on an arc of 10 mm, less than 1e-6 mm where the
        // arc is no steeper than 45°, more where it is.
        EXPECT_NEAR(tallestCusp(report), cusp, 2e-6) << arc.path;
        EXPECT_TRUE(report.theory);
    }
}

// --- Several passes -------------------------------------------------------------------------------------------------

// A second pass on the same diameter, begun half a feed later: its marks fall between the first ones.
TEST(Finish, ASpringPassMayHalveTheMarks) {
    const char* twice =
        "T0101\nG97 S800 M03\nG00 X50. Z2.\nG01 Z-20. F0.2\nG00 X52.\nZ2.{}\nX50.\nG01 Z-20. F0.2\nG00 X70.\nG28 U0 "
        "W0\n"
        "M30\n";
    const auto between = shop::run(fmt::format(fmt::runtime(twice), "1"), bench(0.8));
    const FinishReport halved = finishOf(*between, outside(-18, -1));
    ASSERT_EQ(halved.trouble, "");
    EXPECT_NEAR(tallestCusp(halved), circleHeight(0.1, 0.8), 1e-9);
    EXPECT_EQ(halved.marks.runs, 2);
    EXPECT_NEAR(halved.roughness.rsm.value(), 0.1, 1e-4);
    EXPECT_EQ(halved.roughness.cutOff, 0.25) << "the class goes by the spacing of the marks, not by the feed";
    const auto onTop = shop::run(fmt::format(fmt::runtime(twice), "0"), bench(0.8));
    EXPECT_NEAR(tallestCusp(finishOf(*onTop, outside(-18, -1))), circleHeight(0.2, 0.8), 1e-9);
}

// The pass before, 1 µm further out, still cuts the ridges of the last one, which stand 6 µm high.
TEST(Finish, ThePassBeforeCutsWhatStandsAboveIt) {
    const auto trial = shop::run(
        "T0101\nG97 S800 M03\nG00 X50.002 Z2.1\nG01 Z-20. F0.2\nG00 X52.\nZ2.\nX50.\nG01 Z-20. F0.2\nG00 X70.\nG28 U0 "
        "W0\n"
        "M30\n",
        bench(0.8));
    const FinishReport report = finishOf(*trial, outside(-18, -1));
    ASSERT_EQ(report.trouble, "");
    // Circles of 0.8 at heights 0 and 0.001, half a feed apart.
    double low = 0, high = 0.1;
    for (int i = 0; i < 60; ++i) {
        const double x = (low + high) / 2;
        const double mine = 0.8 - std::sqrt(0.64 - x * x);
        const double other = 0.001 + 0.8 - std::sqrt(0.64 - (0.1 - x) * (0.1 - x));
        (mine < other ? low : high) = x;
    }
    EXPECT_NEAR(tallestCusp(report), 0.8 - std::sqrt(0.64 - low * low), 1e-9);
}

// Many short blocks are one path: the marks do not know them.
TEST(Finish, ShortBlocksLeaveTheMarksOfOneLongOne) {
    std::string program = "T0101\nG97 S800 M03\nG00 X50. Z2.\nG01 F0.2\n";
    for (int i = 1; i <= 2000; ++i) program += fmt::format("Z{:.3f}\n", 2 - 0.011 * i);
    program += "G00 X70.\nG28 U0 W0\nM30\n";
    const auto trial = shop::run(program, bench(0.8));
    const FinishReport report = finishOf(*trial, outside(-19, -1));
    ASSERT_EQ(report.trouble, "");
    EXPECT_EQ(report.marks.runs, 1);
    EXPECT_NEAR(tallestCusp(report), circleHeight(0.2, 0.8), 1e-9);
    EXPECT_NEAR(report.roughness.rsm.value(), 0.2, 1e-4);
}

TEST(Finish, ADwellStampsTheToolWhereItStands) {
    const char* program =
        "T0101\nG97 S600 M03\nG00 X50. Z2.\nG01 Z-10. F0.3\n{}G01 Z-20. F0.3\nG00 X70.\nG28 U0 W0\nM30\n";
    // Looked at an angle at which no mark happens to have its bottom where the tool dwells.
    for (bool dwell : {false, true}) {
        const auto trial = shop::run(fmt::format(fmt::runtime(program), dwell ? "G04 X1.\n" : ""), bench(0.8));
        const Point nose{kDatum - 10 + 0.8, 25};  // of the mark: a nose radius in front of the tip
        StockCursor end(trial->stock);
        end.seek(static_cast<std::uint32_t>(trial->timeline.moves.size()), 0);
        const MarkedSpan marked(end.billet(), static_cast<std::uint32_t>(trial->timeline.moves.size()), trial->timeline,
                                trial->toolpath, trial->setup, outside(-12, -8), 1.0);
        const auto marks = marked.stamp(0, marked.length(), 0.0001);
        ASSERT_TRUE(marks);
        const auto at = static_cast<std::size_t>(std::lround((nose.z - marked.pointAt(0).z) / marks->profile.step));
        if (dwell) {
            EXPECT_LT(marks->profile.heights[at], 1e-7);
        } else {
            EXPECT_GT(marks->profile.heights[at], 1e-4);
        }
    }
}

// --- Random ---------------------------------------------------------------------------------------------------------

TEST(Finish, RandomFeedsNosesAndTapersHaveTheCuspsOfTwoCircles) {
    shop::Dice dice(2026);
    for (int i = 0; i < 40; ++i) {
        const double r = dice.between(0.2, 1.6);
        // The edge behind stands 20° off the steepest taper.
        const double f = dice.between(0.03, 0.6 * r);
        const double rise = dice.between(0, 3);
        const double start = dice.between(0.5, 1.5);
        const auto trial = shop::run(
            fmt::format(
                "T0101\nG97 S800 M03\nG00 X48. Z{:.3f}\nG01 Z0 F{:.4f}\nX{:.3f} Z-14.\nG00 X70.\nG28 U0 W0\nM30\n",
                start, f, 48 + 2 * rise),
            bench(r));
        FinishOptions options;
        options.spindleAngle = dice.between(0, 2 * kPi);
        const FinishReport report = finishOf(*trial, outside(-11.5, -1.5), options);
        ASSERT_EQ(report.trouble, "") << i;
        const double feed = report.marks.feedMax;  // as programmed, four decimals
        EXPECT_NEAR(feed, f, 5.1e-5) << i;
        ASSERT_FALSE(report.marks.profile.peaks.empty()) << i;
        for (const auto& peak : report.marks.profile.peaks) {
            ASSERT_NEAR(peak.height, circleHeight(feed, r), 2e-8) << i << " f " << f << " r " << r;
        }
        EXPECT_TRUE(report.theory) << i;
        for (double height : report.marks.profile.heights) {
            ASSERT_GE(height, -1e-9) << i;
            ASSERT_LE(height, circleHeight(feed, r) + 2e-8) << i;
        }
    }
}

TEST(Finish, DoesNotDependOnWhereRoundTheSpindleOneLooks) {
    const auto trial = shop::run(turning(0.2), bench(0.8));
    const FinishReport first = finishOf(*trial, outside(-19, -1));
    for (double angle : {0.5, 1.5, 3.0, 6.0, -2.0, 50.0}) {
        FinishOptions options;
        options.spindleAngle = angle;
        const FinishReport report = finishOf(*trial, outside(-19, -1), options);
        // The sections begin elsewhere within a mark: a tenth of a per cent of the means over 20 marks.
        EXPECT_NEAR(report.roughness.ra, first.roughness.ra, 2e-3 * first.roughness.ra) << angle;
        EXPECT_NEAR(report.roughness.rz, first.roughness.rz, 2e-3 * first.roughness.rz) << angle;
        EXPECT_NEAR(report.roughness.rsm.value(), 0.2, 1e-4) << angle;
    }
}

// --- What has no marks ----------------------------------------------------------------------------------------------

struct Without {
    const char* name;
    const char* program;
    double zFrom, zTo;
    const char* says;
};

TEST(Finish, SaysWhyThereAreNoFigures) {
    const char* turned = "G00 X50. Z2.\nG01 Z-20. F0.2\nG00 X70.\n";
    for (const Without& row :
         {Without{"skin", "", -30, -25, "skin"}, Without{"partly skin", turned, -25, -15, "skin"},
          Without{"beside the bar", turned, 5, 8, "no metal"}, Without{"no length", turned, -5, -5, "no length"},
          Without{"two columns", turned, -5, -4.997, "three columns"},
          Without{"left at rapid", "G00 X50. Z2.\nG00 Z-20.\nG00 X70.\n", -15, -5, "rapid"},
          Without{"a face between", "G00 X50. Z2.\nG01 Z-20. F0.2\nX56.\nZ-30.\nG00 X70.\n", -25, -15, "face"},
          Without{"feed wider than the tool", "G00 X50. Z2.\nG01 Z-20. F16.\nG00 X70.\n", -15, -5, "wider"}}) {
        const auto trial =
            shop::run(std::string("T0101\nG97 S200 M03\n") + row.program + "G28 U0 W0\nM30\n", bench(0.8));
        const FinishReport report = finishOf(*trial, outside(row.zFrom, row.zTo));
        EXPECT_NE(report.trouble.find(row.says), std::string::npos) << row.name << ": " << report.trouble;
        EXPECT_TRUE(report.marks.profile.heights.empty()) << row.name;
    }
    const auto trial = shop::run(turning(0.2), bench(0.8));
    EXPECT_NE(finishOfFace(*trial, kDatum - 5, 10, 20).trouble.find("no face"), std::string::npos);
    EXPECT_TRUE(finishOfBlock(*trial, 4).empty());
}

TEST(Finish, OfAThreadIsNotOneOfFeedMarks) {
    auto setup = bench(0.8);
    shop::addThreadingTool(setup, 5);
    const auto trial = shop::run(
        "T0101\nG97 S800 M03\nG00 X50. Z2.\nG01 Z-30. F0.2\nG00 X70.\nG28 U0 W0\nT0505\nG97 S500 M03\nG00 X54. Z6.\n"
        "G92 X49. Z-15. F2.\nX48.\nG00 X70.\nG28 U0 W0\nM30\n",
        setup);
    EXPECT_NE(finishOf(*trial, outside(-10, -2)).trouble.find("thread"), std::string::npos);
    EXPECT_EQ(finishOf(*trial, outside(-28, -18)).trouble, "");
}

TEST(Finish, AtAnInstantBeforeTheEnd) {
    const auto trial = shop::run(
        "T0101\nG97 S800 M03\nG00 X50. Z2.\nG01 Z-20. F0.3\nG00 X52.\nZ2.\nX48.\nG01 Z-20. F0.1\nG00 X70.\nG28 U0 "
        "W0\nM30\n",
        bench(0.8));
    FinishOptions early;
    early.timeS = trial->startOfBlock(7);
    EXPECT_NEAR(finishOf(*trial, outside(-18, -1), early).marks.feedMax, 0.3, 1e-9);
    EXPECT_NEAR(finishOf(*trial, outside(-18, -1)).marks.feedMax, 0.1, 1e-9);
}

// The demo part falls off the bar; its surfaces are looked at on the piece, each by the line that left it.
TEST(Finish, OfAPieceThatFell) {
    auto setup = readSetup(shop::readFile("assets/jobs/coupling-spigot.toml"), "coupling-spigot.toml");
    const auto trial =
        runTrial(readProgram(shop::readFile("assets/jobs/coupling-spigot.nc"), "coupling-spigot.nc"), setup);
    const auto cycle = finishOfBlock(*trial, 35);  // G70
    std::vector<Side> sides;
    for (const FinishReport& report : cycle) {
        EXPECT_EQ(report.trouble, "");
        sides.push_back(report.span.side);
    }
    // Chamfer, spigot, taper, boss with fillet, face of the flange, its chamfer, the flange before and behind the
    // groove, and what is left of it on the bar.
    EXPECT_EQ(sides, (std::vector<Side>{Side::Outer, Side::Outer, Side::Outer, Side::Outer, Side::FrontFace,
                                        Side::Outer, Side::Outer, Side::Outer, Side::Outer}));
    ASSERT_EQ(cycle.size(), 9u);
    EXPECT_EQ(cycle[1].piece, 1);
    EXPECT_EQ(cycle[8].piece, 0);
    EXPECT_NEAR(tallestCusp(cycle[1]), circleHeight(0.12, 0.4), 1e-8);
    EXPECT_EQ(cycle[1].stations, (std::vector<int>{3}));
}

}  // namespace
}  // namespace firstoff
