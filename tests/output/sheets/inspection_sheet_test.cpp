// The inspection sheet on values made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/output/sheets/inspection_sketch.h"
#include "sim/output/sheets/job_sheets.h"
#include "sim/output/sheets/sheet_html.h"
#include "tests/output/sheets/paper_reader.h"
#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

// A pin of 40 with a shoulder at 30 x 20, drilled 10, held in the chuck.
std::shared_ptr<const Trial> pin() {
    Setup setup = shop::barStock(50, 65);
    shop::addTurningTool(setup, 1, 'C', 0.4);
    shop::addDrill(setup, 2, 10);
    return shop::run(
        "G54 G40 G99\nT0101\nG97 S1000 M03\nG00 X60. Z0\nG01 X-1. F0.1\nG00 X40. Z2.\nG01 Z-45.\nX52.\nG00 Z2.\nX30.\n"
        "G01 Z-20.\nX42.\nG00 X80. Z50.\nT0202\nG00 X0 Z2.\nG01 Z-15.\nG00 Z50.\nM30\n",
        setup);
}

GaugedDimension dimension(WantedDimension::Kind kind, const char* name, double size, Point at, bool inside = false) {
    GaugedDimension d;
    d.wanted.kind = kind;
    d.wanted.size = size;
    d.wanted.inside = inside;
    d.name = name;
    d.least = size - 0.1;
    d.most = size + 0.1;
    d.limited = true;
    d.measured = size + 0.012;
    d.state = GaugedDimension::State::Within;
    d.places = {at};
    return d;
}

Trial gauged() {
    Trial trial = *pin();
    const double z0 = trial.setup.workOffsets[0].z;
    using Kind = WantedDimension::Kind;
    auto& all = trial.gauged.dimensions;
    all.push_back(dimension(Kind::Diameter, "Ø30 h7", 30, {z0 - 10, 15}));
    all.back().least = 29.979;
    all.back().most = 30;
    all.back().state = GaugedDimension::State::TooLarge;
    all.back().measured = 30.012;
    all.back().bending = 0.004;
    all.back().moves = {{3, true, 1}};
    all.back().wish = OffsetWish{3, true, -0.0265};
    OffsetCorrection correction;
    correction.offset = 3;
    correction.amountMm = -0.026;
    correction.leastMm = -0.037;
    correction.mostMm = -0.016;
    correction.suits = {{0, -0.037, -0.016}};
    trial.gauged.corrections = {correction};
    all.push_back(dimension(Kind::Diameter, "Ø40", 40, {z0 - 30, 20}));
    all.push_back(dimension(Kind::Diameter, "Ø10", 10, {z0 - 7, 5}, true));
    all.push_back(dimension(Kind::Length, "20", 20, {z0, 10}));
    all.back().places = {{z0, 10}, {z0 - 20, 20}};
    all.push_back(dimension(Kind::Taper, "taper 30°", radians(30), {z0 - 1, 15}));
    all.push_back(dimension(Kind::Chamfer, "chamfer 1", 1, {z0, 14}));
    all.back().state = GaugedDimension::State::NotFound;
    all.back().trouble = "There is no chamfer at that place.";
    all.back().places.clear();
    ContourDeviation deviation;
    deviation.from = {z0 - 20, 15};
    deviation.to = {z0 - 25, 20};
    deviation.amountMm = 0.25;
    trial.gauged.deviations = {deviation};
    trial.gauged.deviationBandMm = 0.1;
    trial.gauged.assumed = {"Limits by ISO 2768-1, class m."};
    return trial;
}

TEST(InspectionSheet, SaysOfEveryDimensionWhatItMust) {
    const Sheet sheet = makeSheet(gauged(), SheetKind::Inspection, {});
    const std::string html = sheetHtml(sheet);
    EXPECT_EQ(shop::xmlComplaints(html), "");
    for (const char* what :
         {"Ø30 h7", "29.979", "30.012", "+0.004", "30.016", "too large by 0.016", "Put -0.026 in X of offset 3",
          "taper 30°", "30.000°", "not found", "No. 6: There is no chamfer at that place.", "left standing", "0.250",
          "up to 0.100 mm", "-20.000", "Limits by ISO 2768-1, class m.", "Gauged by, date"}) {
        EXPECT_THAT(html, HasSubstr(what));
    }
    const std::string text = shop::pdfText(sheetPdf(sheet));
    for (const char* what : {"Ø30 h7", "30.012", "Simulated", "1st part", "page 1 of"})
        EXPECT_THAT(text, HasSubstr(what));
}

TEST(InspectionSketch, GivesEveryDimensionItsNumberOnce) {
    for (const double width : {kPhoneFigureMm, kSheetBodyMm}) {
        const std::vector<Sketch> sketches = inspectionSketches(gauged(), width);
        ASSERT_EQ(sketches.size(), 1u);
        std::vector<std::string> numbers;
        for (const SketchMark& mark : sketches[0].marks) {
            if (const auto* l = std::get_if<Lettering>(&mark); l != nullptr && l->text.find(' ') == std::string::npos) {
                numbers.push_back(l->text);
            }
        }
        std::sort(numbers.begin(), numbers.end());
        EXPECT_EQ(numbers, (std::vector<std::string>{"", "1", "2", "3", "4", "5", "6"}));
    }
}

TEST(InspectionSketch, TakesFurtherDrawingsForManyDimensions) {
    Trial trial = gauged();
    const GaugedDimension one = trial.gauged.dimensions.front();
    trial.gauged.dimensions.assign(60, one);
    const std::vector<Sketch> sketches = inspectionSketches(trial, kPhoneFigureMm);
    EXPECT_GE(sketches.size(), 4u);
    std::size_t rings = 0;
    for (const Sketch& sketch : sketches) {
        for (const SketchMark& mark : sketch.marks) rings += std::holds_alternative<Ring>(mark) ? 1 : 0;
    }
    EXPECT_EQ(rings, 60u);
}

TEST(InspectionSketch, StaysWithinItsPaper) {
    for (const Sketch& sketch : inspectionSketches(gauged(), kPhoneFigureMm)) {
        const auto within = [&](PaperPoint p) {
            EXPECT_GE(p.x, 0);
            EXPECT_LE(p.x, sketch.width);
            EXPECT_GE(p.y, 0);
            EXPECT_LE(p.y, sketch.height);
        };
        for (const SketchMark& mark : sketch.marks) {
            if (const auto* stroke = std::get_if<Stroke>(&mark)) {
                for (PaperPoint p : stroke->points) within(p);
            } else if (const auto* ring = std::get_if<Ring>(&mark)) {
                within({ring->centre.x - ring->radius, ring->centre.y - ring->radius});
                within({ring->centre.x + ring->radius, ring->centre.y + ring->radius});
            }
        }
    }
}

}  // namespace
}  // namespace firstoff
