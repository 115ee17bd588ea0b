// Threads cut into the billet and gauged there, against published sizes.
#include "sim/inspection/thread_gauge.h"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "sim/inspection/metric_thread.h"
#include "sim/stock/history.h"
#include "tests/support/reference_rows.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

using shop::ThreadWork;
using shop::TipPath;

// Cuts the work on a bar of its diameter and gauges the middle of it in a few sectors; they must agree.
ThreadFigures gauged(const firstoff::Setup& setup, const TipPath& path, const ThreadWork& work, bool inside = false) {
    HistoryOptions options;
    options.sectors = 8;
    const auto history = StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
    StockCursor cursor(history);
    cursor.seek(static_cast<std::uint32_t>(history->cuts().size()), 0);
    const double front = setup.stock.frontZ;
    const double lead = work.pitch * work.starts;
    std::optional<ThreadFigures> first;
    for (int sector : {0, 3, 5}) {
        const auto figures =
            gaugeThread(cursor.billet(), sector, front - work.length + lead, front - lead, lead, inside);
        EXPECT_TRUE(figures);
        if (!figures) return {};
        if (!first) first = figures;
        EXPECT_NEAR(figures->pitchMm, first->pitchMm, 1e-3);
    }
    return *first;
}

ThreadFigures bolt(const ThreadWork& work, Outline (*changed)(const Outline&) = nullptr) {
    auto setup = shop::barStock(work.diameter, 12 * work.pitch);
    Tool& tool = shop::addFullProfile(setup, 5, work.pitch);
    if (changed) tool.cutting = changed(tool.cutting);
    TipPath path(setup);
    shop::cutThread(path, 5, setup.stock.frontZ, work);
    return gauged(setup, path, work);
}

// Rows "basic" of tests/reference/threads.csv (computed there from ISO 68-1 and ISO 724 formulas that were opened).
// 3 µm: the columns stand 2 µm apart, at flanks of 30°; the rows themselves are rounded to 0.05 µm.
TEST(ThreadGauge, AgreesWithPublishedBasicSizes) {
    int rows = 0;
    for (const shop::ReferenceRow& row : shop::referenceRows("threads.csv")) {
        if (row.text("kind") != "basic") continue;
        const double d = *row.number("D_mm"), pitch = *row.number("pitch_mm");
        if (d < 6 || d > 64) continue;
        ++rows;
        ThreadWork work{d, pitch, 8 * pitch, 5};
        work.depth = *row.number("h3_ext_depth_mm");
        const ThreadFigures figures = bolt(work);
        const std::string& name = row.text("designation");
        EXPECT_NEAR(figures.pitchMm, *row.number("d2_basic_mm"), 0.003) << name;
        EXPECT_NEAR(figures.minorMm, *row.number("d3_mm"), 0.003) << name;
        EXPECT_NEAR(figures.depthMm, *row.number("h3_ext_depth_mm"), 0.003) << name;
        EXPECT_NEAR(figures.majorMm, d, 1e-9) << name;
        EXPECT_NEAR(figures.leadMm, pitch, 1e-6) << name;
        EXPECT_NEAR(figures.grooves, 1, 1e-9) << name;
        EXPECT_NEAR(degrees(figures.flankFront), 30, 0.05) << name;  // two columns over a third of the least depth
        EXPECT_NEAR(degrees(figures.flankBack), 30, 0.05) << name;
        EXPECT_NEAR(figures.crestFlatMm, pitch / 8, 0.006) << name;  // 1 µm below the crest, flanks and columns
    }
    EXPECT_GE(rows, 20);
}

// In a nut: bore D1, profile with a flat of P/8 at D; from the same rows.
TEST(ThreadGauge, AgreesWithPublishedBasicSizesInside) {
    for (const shop::ReferenceRow& row : shop::referenceRows("threads.csv")) {
        if (row.text("kind") != "basic") continue;
        const double d = *row.number("D_mm"), pitch = *row.number("pitch_mm");
        if (d < 16 || d > 64) continue;  // smaller ones are tapped
        const double bore = *row.number("d1_D1_basic_mm");
        auto setup = shop::barStock(d + 30, 12 * pitch, 1, bore);
        Tool& tool = shop::addInsideThreadingTool(setup, 5);
        tool.noseRadius = 0;
        tool.width = pitch / 8;
        tool.cuttingDepth = pitch;
        tool.cutting = toolOutline(tool);
        TipPath path(setup);
        const double front = setup.stock.frontZ;
        const ThreadWork work{d, pitch, 8 * pitch, 1};
        path.tool(5).turning(SpindleDirection::Forward, 400).at(bore - 2, front + pitch);
        for (const double depth : {0.5, 0.8, 1.0}) {
            const double x = bore + depth * (d - bore);
            path.rapid(x, front + pitch).thread(x, front - 8 * pitch, pitch).rapid(bore - 2, front - 8 * pitch);
            path.rapid(bore - 2, front + pitch);
        }
        const ThreadFigures figures = gauged(setup, path, work, true);
        EXPECT_NEAR(figures.pitchMm, *row.number("d2_basic_mm"), 0.003) << d;
        EXPECT_NEAR(figures.minorMm, bore, 1e-9) << d;
        EXPECT_NEAR(figures.majorMm, d, 0.003) << d;
        EXPECT_NEAR(figures.depthMm, *row.number("H1_int_depth_mm"), 0.003) << d;
    }
}

TEST(ThreadGauge, AWrongDepthShowsInThePitchDiameter) {
    ThreadWork work{24, 3, 24, 4};
    work.depth = 0.61343 * 3 - 0.1;
    const ThreadFigures figures = bolt(work);
    // Radially 0.1 too shallow moves both flanks out: pitch and minor diameter 0.2 too large.
    EXPECT_NEAR(figures.pitchMm, 22.0514 + 0.2, 0.003);
    EXPECT_NEAR(figures.minorMm, 20.3194 + 0.2, 0.003);
}

// The insert of 55° set for one of 60°: flanks of 27.5°, and the pitch diameter follows.
TEST(ThreadGauge, AWrongProfileShowsInTheFlanks) {
    ThreadWork work{24, 3, 24, 4};
    auto setup = shop::barStock(24, 36);
    Tool& tool = shop::addFullProfile(setup, 5, 3);
    tool.threadAngle = radians(55);
    tool.cutting = toolOutline(tool);
    TipPath path(setup);
    shop::cutThread(path, 5, setup.stock.frontZ, work);
    const ThreadFigures figures = gauged(setup, path, work);
    EXPECT_NEAR(degrees(figures.flankFront), 27.5, 0.03);
    EXPECT_NEAR(degrees(figures.flankBack), 27.5, 0.03);
    // Half the groove's width at radius r: nose tan(45° - 27.5°/2) ... from the apex at root + nose - nose / sin 27.5°:
    // it is P/4 where r = apex + P / (4 tan 27.5°).
    const double nose = 0.14434 * 3, s = std::sin(radians(27.5));
    const double apex = 12 - 0.61343 * 3 + nose - nose / s;
    EXPECT_NEAR(figures.pitchMm, 2 * (apex + 3 / (4 * std::tan(radians(27.5)))), 0.003);
}

// Turned about its point by 2°: one flank 2° steeper, the other 2° flatter.
TEST(ThreadGauge, AnInsertSetAtAWrongAngleShowsInBothFlanks) {
    const ThreadFigures figures = bolt({24, 3, 24, 4}, [](const Outline& outline) {
        const double a = radians(2);
        const auto turned = [&](Point p) {
            return Point{p.z * std::cos(a) - p.r * std::sin(a), p.z * std::sin(a) + p.r * std::cos(a)};
        };
        Outline result = outline;
        for (OutlineElement& e : result.elements) {
            e.from = turned(e.from);
            e.to = turned(e.to);
            e.centre = turned(e.centre);
        }
        return result;
    });
    EXPECT_NEAR(std::abs(degrees(figures.flankFront) - degrees(figures.flankBack)), 4, 0.06);
    EXPECT_NEAR(degrees(figures.flankFront) + degrees(figures.flankBack), 60, 0.06);
}

// A second run of passes that starts a third of a turn later cuts a second groove.
TEST(ThreadGauge, AThreadPickedUpAtTheWrongAngleHasTwoGrooves) {
    ThreadWork work{24, 3, 24, 3};
    auto setup = shop::barStock(24, 36);
    shop::addFullProfile(setup, 5, 3);
    TipPath path(setup);
    shop::cutThread(path, 5, setup.stock.frontZ, work);
    work.startTurns = 1.0 / 3;
    shop::cutThread(path, 5, setup.stock.frontZ, work);
    const ThreadFigures figures = gauged(setup, path, work);
    EXPECT_LT(figures.majorMm, 24 - 0.5) << "the crest is gone";
    EXPECT_NEAR(figures.minorMm, 20.3194, 0.003);
    EXPECT_NEAR(figures.leadMm, 3, 1e-6);
}

TEST(ThreadGauge, SeveralStartsAreSeveralGrooves) {
    ThreadWork work{24, 2, 24, 3, 3};
    const ThreadFigures figures = bolt(work);
    EXPECT_NEAR(figures.grooves, 3, 1e-9);
    EXPECT_NEAR(figures.leadMm, 6, 1e-6);
    EXPECT_NEAR(figures.pitchMm, metricThread(24, 2).pitchDiameterMm, 0.003);
}

TEST(ThreadGauge, GaugesNothingWhereThereIsNoThread) {
    const Billet plain(shop::barStock(24, 36).stock);
    const double front = shop::barStock(24, 36).stock.frontZ;
    EXPECT_FALSE(gaugeThread(plain, 0, front - 20, front - 5, 3, false));
    EXPECT_FALSE(gaugeThread(plain, 0, front - 2, front - 1, 3, false)) << "less than a lead";
    EXPECT_FALSE(gaugeThread(plain, 0, front - 2, front + 10, 3, false)) << "no metal";
}

// Rows of limits in tests/reference/threads.csv, opened or from memory as they say. The formulas differ from the tables
// of ISO 965-1 by one preferred number here and there: 6 % of a tolerance of at most 0.8 mm.
TEST(MetricThread, LimitsAreThoseOfTheTables) {
    int rows = 0;
    for (const shop::ReferenceRow& row : shop::referenceRows("threads.csv")) {
        const bool bolt = row.text("kind") == "limits_external" && row.text("class") == "6g";
        const bool nut = row.text("kind") == "limits_internal" && row.text("class") == "6H";
        if ((!bolt && !nut) || !row.number("D_mm")) continue;
        ++rows;
        const MetricThread thread = metricThread(*row.number("D_mm"), *row.number("pitch_mm"));
        const std::string& name = row.text("designation");
        const ThreadLimits pitch = bolt ? boltPitch6g(thread) : nutPitch6H(thread);
        const auto near = [&](const char* heading, double value, double tolerance) {
            if (row.number(heading)) {
                EXPECT_NEAR(value, *row.number(heading), 0.065 * tolerance + 0.0011) << name << heading;
            }
        };
        near("pitchdia_max_mm", pitch.most, pitch.most - pitch.least);
        near("pitchdia_min_mm", pitch.least, pitch.most - pitch.least);
        if (bolt) {
            const ThreadLimits major = boltMajor6g(thread);
            near("major_max_mm", major.most, major.most - major.least);
            near("major_min_mm", major.least, major.most - major.least);
        } else {
            const ThreadLimits minor = nutMinor6H(thread);
            near("minor_max_mm", minor.most, minor.most - minor.least);
            near("minor_min_mm", minor.least, minor.most - minor.least);
        }
    }
    EXPECT_GE(rows, 30);
}

TEST(MetricThread, SizeIsFoundFromTheCrest) {
    EXPECT_EQ(metricBolt(23.9, 3, 0.05)->nominalMm, 24);
    EXPECT_EQ(metricBolt(24.0, 1.5, 0.05)->nominalMm, 24);
    EXPECT_FALSE(metricBolt(25.0, 3, 0.05));
    EXPECT_EQ(metricNut(10.2, 1.75, 0.05)->nominalMm, 12);
    EXPECT_FALSE(metricNut(11.0, 1.75, 0.05));
    EXPECT_FALSE(metricBolt(24.0, 0, 0.05));
    EXPECT_EQ(metricByPitchDiameter(23.0, 1.5, 0.3)->nominalMm, 24);
    EXPECT_FALSE(metricByPitchDiameter(24.0, 1.5, 0.3));
}

}  // namespace
}  // namespace firstoff
