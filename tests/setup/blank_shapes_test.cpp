// Blanks that are not plain round bars: what the set-up says of them, and the drawings it names.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/contour_geometry.h"
#include "sim/base/units.h"
#include "sim/drawing/dxf_writer.h"
#include "sim/setup/blank_drawing.h"
#include "sim/setup/setup.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

std::string latheWith(const std::string& stock, const std::string& chuck = "") {
    return R"([machine]
home_x_mm = 400
home_z_mm = 500
travel_x_mm = [-420, 0]
travel_z_mm = [-520, 0]
rapid_x_mm_per_min = 18000
rapid_z_mm_per_min = 24000
max_feed_mm_per_min = 5000
max_rev_per_min = 4500
index_time_s = 0.6
stations = 12
turret_diameter_mm = 300
turret_thickness_mm = 90
[chuck]
body_diameter_mm = 165
body_length_mm = 80
jaw_length_mm = 30
jaw_outer_diameter_mm = 160
)" + chuck +
           "[stock]\n" + stock + "[work_offsets.G54]\nz_from_bar_end_mm = -1\n";
}

firstoff::Setup read(const std::string& stock, const std::string& chuck = "") {
    return readSetup(latheWith(stock, chuck), "blank.toml");
}

const std::string kHexagon = "shape = \"hexagon\"\nacross_flats_mm = 36\nlength_mm = 120\nstick_out_mm = 70\n";
const std::string kSquare = "shape = \"square\"\nacross_flats_mm = 30\nlength_mm = 120\nstick_out_mm = 70\n";
const std::string kHalf = "shape = \"half-section\"\ndrawing = \"forging.dxf\"\nstick_out_mm = 30\n";
const std::string kCross = "shape = \"cross-section\"\ndrawing = \"d.dxf\"\nlength_mm = 120\nstick_out_mm = 70\n";
const std::string kPrevious = "shape = \"previous\"\nafter_program = \"first-side.nc\"\nstick_out_mm = 40\n";

TEST(BlankShapes, AHexagonTurnsOverItsCorners) {
    const auto setup = read(kHexagon);
    EXPECT_THAT(setup.findings, IsEmpty());
    EXPECT_EQ(setup.stock.shape, Stock::Shape::Hexagon);
    EXPECT_EQ(setup.stock.acrossFlats, 36);
    EXPECT_NEAR(setup.stock.outerRadius, 36 / std::sqrt(3.0), 1e-12);
    EXPECT_EQ(setup.stock.frontZ, 100);
    EXPECT_EQ(setup.stock.backZ, -20);
    EXPECT_FALSE(setup.stock.isRound());
}

TEST(BlankShapes, EccentricityReachesToTheFarthestCorner) {
    const auto hexagon = read(kHexagon + "eccentricity_mm = 2\n").stock;
    const auto square = read(kSquare + "eccentricity_mm = 2\nbore_mm = 12\n").stock;
    const auto bar =
        read("shape = \"bar\"\ndiameter_mm = 40\neccentricity_mm = 2.5\nlength_mm = 90\nstick_out_mm = 60\n").stock;
    EXPECT_NEAR(hexagon.outerRadius, std::hypot(20, 18 / std::sqrt(3.0)), 1e-12);
    EXPECT_NEAR(square.outerRadius, std::hypot(17, 15), 1e-12);
    EXPECT_EQ(square.boreRadius, 6);
    EXPECT_EQ(bar.outerRadius, 22.5);
    EXPECT_FALSE(bar.isRound());
}

TEST(BlankShapes, JawsThatMissFlatsAreNoted) {
    const auto notes = [](const std::string& stock, int jaws) {
        const auto setup = read(stock, "jaws = " + std::to_string(jaws) + "\n");
        for (const Finding& f : setup.findings) {
            EXPECT_EQ(f.code, "setup-jaws-miss-flats");
            EXPECT_EQ(f.severity, Severity::Note);
        }
        return setup.findings.size();
    };
    for (int jaws : {2, 3, 6}) EXPECT_EQ(notes(kHexagon, jaws), 0u) << jaws;
    for (int jaws : {4, 5, 8}) EXPECT_EQ(notes(kHexagon, jaws), 1u) << jaws;
    for (int jaws : {2, 4}) EXPECT_EQ(notes(kSquare, jaws), 0u) << jaws;
    for (int jaws : {3, 6, 8}) EXPECT_EQ(notes(kSquare, jaws), 1u) << jaws;
}

struct Slip {
    const char* name;
    std::string stock;
    const char* code;
    const char* says;
};

void PrintTo(const Slip& slip, std::ostream* out) {
    *out << slip.name;
}

class EveryBlankSlip : public testing::TestWithParam<Slip> {};

TEST_P(EveryBlankSlip, IsOneFindingAndNeverClear) {
    const auto setup = read(GetParam().stock, "jaws = 2\n");
    ASSERT_THAT(setup.findings, SizeIs(1)) << setup.findings[1].message;
    EXPECT_EQ(setup.findings[0].code, GetParam().code);
    EXPECT_THAT(setup.findings[0].message, HasSubstr(GetParam().says));
    EXPECT_NE(verdictOf(setup.findings), Verdict::Clear);
}

INSTANTIATE_TEST_SUITE_P(
    Slips, EveryBlankSlip,
    testing::Values(
        Slip{"diameter_of_a_hexagon", kHexagon + "diameter_mm = 40\n", "setup-key-of-another-kind",
             "stock of the shape \"hexagon\""},
        Slip{"hexagon_without_size", "shape = \"hexagon\"\nlength_mm = 120\nstick_out_mm = 70\n", "setup-missing-key",
             "across_flats_mm"},
        Slip{"bore_as_wide_as_the_flats", kHexagon + "bore_mm = 36\n", "setup-stock-contradiction", "36"},
        Slip{"corners_wider_than_the_chuck",
             "shape = \"square\"\nacross_flats_mm = 120\nlength_mm = 120\n"
             "stick_out_mm = 70\neccentricity_mm = 30\n",
             "setup-bar-larger-than-chuck", "over all as it turns"},
        Slip{"length_of_a_half_section", kHalf + "length_mm = 40\n", "setup-key-of-another-kind", "length_mm"},
        Slip{"half_section_without_drawing", "shape = \"half-section\"\nstick_out_mm = 50\n", "setup-missing-key",
             "drawing"},
        Slip{"drawing_without_name", "shape = \"half-section\"\ndrawing = \"\"\nstick_out_mm = 50\n",
             "setup-stock-contradiction", "names no file"},
        Slip{"eccentric_half_section", kHalf + "eccentricity_mm = 1\n", "setup-key-of-another-kind", "eccentricity_mm"},
        Slip{"previous_without_program", "shape = \"previous\"\nstick_out_mm = 50\n", "setup-missing-key",
             "after_program"},
        Slip{"unknown_unit", kHalf + "drawing_unit = \"feet\"\n", "setup-unknown-choice", "feet"}),
    [](const auto& row) { return std::string(row.param.name); });

// ---- half-sections ----

// A flange with a hub and a fillet of 3, drawn with its face at x 200: hub 20 long and 20 in radius, flange 10 and 40.
const Contour kFlange = {{{160, 0}, 0},  {{200, 0}, 0},  {{200, 20}, 0}, {{173, 20}, -std::tan(kPi / 8)},
                         {{170, 23}, 0}, {{170, 40}, 0}, {{160, 40}, 0}};

std::string flange(DrawingUnit unit = DrawingUnit::Millimetre) {
    return dxfText({{kFlange, true, "outline", 0}}, unit);
}

TEST(BlankDrawing, AHalfSectionStandsWithItsFaceAtTheStickOut) {
    const auto setup = withDrawing(read(kHalf), flange());
    EXPECT_THAT(setup.findings, IsEmpty());
    const Stock& s = setup.stock;
    EXPECT_EQ(s.frontZ, 60);
    EXPECT_EQ(s.backZ, 20);
    EXPECT_EQ(s.outerRadius, 40);
    EXPECT_TRUE(s.isRound());
    ASSERT_THAT(s.halfSection, SizeIs(1));
    Contour expected = kFlange;
    for (ContourCorner& corner : expected) corner.at.z -= 140;
    EXPECT_EQ(s.halfSection[0], expected);
    EXPECT_EQ(setup.workOffsets[0].z, 59);
}

TEST(BlankDrawing, TurnedRoundTheOtherEndLooksOut) {
    const auto setup = withDrawing(read(kHalf + "turned_round = true\n"), flange());
    const Stock& s = setup.stock;
    ASSERT_THAT(s.halfSection, SizeIs(1));
    const Box box = boundingBox(s.halfSection);
    EXPECT_EQ(box.zMax, 60);
    EXPECT_EQ(box.zMin, 20);
    EXPECT_NEAR(areaOf(s.halfSection[0]), areaOf(kFlange), 1e-12);
    // The flange now stands in front: its rim, at radius 40, from 50 to 60.
    double least = 1e9;
    for (const ContourCorner& corner : s.halfSection[0]) {
        if (corner.at.r == 40) least = std::min(least, corner.at.z);
    }
    EXPECT_EQ(least, 50);
}

TEST(BlankDrawing, InchesAreTheSame) {
    const auto setup = withDrawing(read(kHalf), flange(DrawingUnit::Inch));
    EXPECT_THAT(setup.findings, IsEmpty());
    EXPECT_NEAR(setup.stock.outerRadius, 40, 1e-12);
    const auto said = withDrawing(read(kHalf + "drawing_unit = \"mm\"\n"), flange(DrawingUnit::Inch));
    EXPECT_NEAR(said.stock.outerRadius, 40 / 25.4, 1e-12);
}

TEST(BlankDrawing, TheAxisNeedNotBeDrawn) {
    Contour open(kFlange.begin() + 1, kFlange.end());
    open.push_back(kFlange.front());
    const auto setup = withDrawing(read(kHalf), dxfText({{open, false, {}, 0}}));
    EXPECT_THAT(setup.findings, IsEmpty());
    ASSERT_THAT(setup.stock.halfSection, SizeIs(1));
    EXPECT_NEAR(areaOf(setup.stock.halfSection[0]), areaOf(kFlange), 1e-12);
}

TEST(BlankDrawing, ATableOfASectionWillDo) {
    const auto half = "shape = \"half-section\"\ndrawing = \"left.CSV\"\npiece = 1\nstick_out_mm = 30\n";
    const auto setup = withDrawing(
        read(half),
        "piece,loop,z_mm,r_mm\n0,0,-90,0\n0,0,-50,0\n0,0,-50,20\n1,0,-40,5\n1,0,0,5\n1,0,0,15\n1,0,-40,15\n");
    EXPECT_THAT(setup.findings, IsEmpty());
    EXPECT_EQ(setup.stock.backZ, 20);
    EXPECT_EQ(setup.stock.outerRadius, 15);
}

TEST(BlankDrawing, FaultsStandAtTheNameOfTheDrawingWithItsLine) {
    const std::string text = latheWith(kHalf);
    std::string drawing = flange();
    drawing.insert(drawing.rfind("0\nENDSEC"), "0\nSPLINE\n8\noutline\n");
    const auto setup = withDrawing(readSetup(text, "blank.toml"), drawing);
    ASSERT_THAT(setup.findings, SizeIs(1));
    const Finding& f = setup.findings[0];
    EXPECT_EQ(f.code, "drawing-entity-not-understood");
    EXPECT_THAT(f.message, testing::StartsWith("forging.dxf, line "));
    EXPECT_EQ(f.span.file, SourceSpan::File::Setup);
    EXPECT_EQ(f.span.line, setup.stock.sizeSpan.line);
    EXPECT_GT(f.span.line, 0u);
    EXPECT_EQ(verdictOf(setup.findings), Verdict::NotProven);
    EXPECT_EQ(setup.stock.outerRadius, 40);  // what is understood is cut all the same
}

TEST(BlankDrawing, WithoutAnOutlineThereIsNoBlank) {
    Contour below = kFlange;
    for (ContourCorner& corner : below) corner.at.r -= 25;
    Contour huge = kFlange;
    for (ContourCorner& corner : huge) corner.at = 100 * corner.at;
    const DrawnPath open{{kFlange.begin() + 2, kFlange.end()}, false, {}, 0};
    for (const std::string& drawing :
         {std::string(), std::string("junk"), dxfText({}), dxfText({open}), dxfText({{below, true, {}, 0}}),
          dxfText({{huge, true, {}, 0}}), dxfText({{{{{0, 0}, 0}, {{10, 0}, 0}}, true, {}, 0}})}) {
        const auto setup = withDrawing(read(kHalf), drawing);
        EXPECT_EQ(setup.stock.outerRadius, 0);
        EXPECT_NE(verdictOf(setup.findings), Verdict::Clear);
    }
    const auto missing = withoutDrawing(read(kHalf), "forging.dxf: there is no such file");
    ASSERT_THAT(missing.findings, SizeIs(1));
    EXPECT_TRUE(missing.findings[0].unproven);
}

TEST(BlankDrawing, ChecksTheChuckOnceTheBlankIsKnown) {
    const auto setup =
        withDrawing(read("shape = \"half-section\"\ndrawing = \"d.dxf\"\nstick_out_mm = 70\n"), flange());
    ASSERT_THAT(setup.findings, SizeIs(1));
    EXPECT_EQ(setup.findings[0].code, "setup-bar-not-held");
}

// ---- cross-sections ----

TEST(BlankDrawing, ACrossSectionStandsAboutTheSpindleAxis) {
    // A cam: base circle of radius 20 with a nose of radius 8 about (22, 0), and a bore.
    const Contour base = {{{20, 0}, 1}, {{-20, 0}, 1}};
    const Contour nose = {{{30, 0}, 1}, {{14, 0}, 1}};
    const auto setup = withDrawing(read(kCross), dxfText({{base, true, {}, 0}, {nose, true, {}, 0}}));
    EXPECT_THAT(setup.findings, IsEmpty());
    EXPECT_NEAR(setup.stock.outerRadius, 30, 1e-12);
    EXPECT_THAT(setup.stock.crossSection, SizeIs(2));
    EXPECT_EQ(setup.stock.backZ, -20);
    EXPECT_FALSE(setup.stock.isRound());
}

TEST(BlankDrawing, ATableIsNoCrossSection) {
    const auto setup =
        withDrawing(read("shape = \"cross-section\"\ndrawing = \"d.csv\"\nlength_mm = 120\nstick_out_mm = 70\n"),
                    "piece,loop,z_mm,r_mm\n0,0,0,0\n0,0,1,0\n0,0,1,1\n");
    ASSERT_THAT(setup.findings, SizeIs(1));
    EXPECT_EQ(setup.findings[0].code, "setup-stock-contradiction");
    EXPECT_EQ(setup.stock.outerRadius, 0);
}

TEST(BlankShapes, WhatIsLeftOfAnotherTrialIsNotKnownYet) {
    const auto setup = read(kPrevious + "after_setup = \"first-side.toml\"\npiece = 1\nturned_round = true\n");
    EXPECT_THAT(setup.findings, IsEmpty());
    EXPECT_EQ(setup.stock.previousProgram, "first-side.nc");
    EXPECT_EQ(setup.stock.previousSetup, "first-side.toml");
    EXPECT_EQ(setup.stock.piece, 1);
    EXPECT_TRUE(setup.stock.turnedRound);
    EXPECT_EQ(setup.stock.outerRadius, 0);
    EXPECT_EQ(setup.stock.frontZ, 70);
    EXPECT_EQ(setup.workOffsets[0].z, 69);
}

}  // namespace
}  // namespace firstoff
