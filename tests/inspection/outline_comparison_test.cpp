// The part beside its drawn outline: whole, with metal left, with metal missing, from a file and from the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "sim/drawing/dxf_writer.h"
#include "sim/inspection/drawn_outline.h"
#include "sim/setup/wanted_drawing.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// Ø20 to Z-10, R2 into a shoulder at Z-12, Ø30 to Z-20: outline with its metal to the left.
Contour drawnPart() {
    return {{{-20, 0}, 0},  {{0, 0}, 0},    {{0, 10}, 0},  {{-10, 10}, std::tan(std::acos(-1.0) / 8)},
            {{-12, 12}, 0}, {{-12, 15}, 0}, {{-20, 15}, 0}};
}

PartOutline outlineOf(const Contour& contour) {
    PartOutline outline;
    outline.add(contour, std::vector<CutId>(contour.size(), 7));
    return outline;
}

TEST(OutlineComparison, FindsNothingOnTheSameOutline) {
    const PartOutline part = outlineOf(drawnPart());
    for (const OutlinePlace& place : besideOutline(part, part)) {
        ASSERT_TRUE(place.off);
        EXPECT_NEAR(*place.off, 0, 1e-6);
    }
}

struct Change {
    const char* what;
    std::size_t from, to;  // corners moved
    Point by;
    double amount;  // of the only stretch
    std::size_t stretches;
};

// Whole faces and cylinders moved in or out: the amount is the move.
TEST(OutlineComparison, TellsMetalLeftFromMetalMissing) {
    const Change kChanges[] = {{"Ø30 too thick", 5, 6, {0, 0.1}, 0.1, 1},
                               {"Ø30 too thin", 5, 6, {0, -0.1}, -0.1, 1},
                               {"too long", 1, 2, {0.3, 0}, 0.3, 1},
                               {"too short", 1, 2, {-0.3, 0}, -0.3, 1}};
    for (const Change& row : kChanges) {
        SCOPED_TRACE(row.what);
        Contour cut = drawnPart();
        for (std::size_t i = row.from; i <= row.to; ++i) cut[i].at = cut[i].at + row.by;
        const auto found = deviationsOf(besideOutline(outlineOf(cut), outlineOf(drawnPart())), 0.01);
        ASSERT_GE(found.size(), row.stretches);
        const auto worst = *std::max_element(found.begin(), found.end(), [&](const auto& a, const auto& b) {
            return std::abs(std::abs(a.amountMm) - std::abs(row.amount)) >
                   std::abs(std::abs(b.amountMm) - std::abs(row.amount));
        });
        EXPECT_NEAR(worst.amountMm, row.amount, 1e-6);
        EXPECT_EQ(worst.cut, 7u);
    }
}

// A nose of R in a corner drawn sharp leaves R of metal at the most, square to either wall.
TEST(OutlineComparison, FindsTheRoundingThatANoseLeavesInASharpCorner) {
    Contour drawn = drawnPart();
    drawn[3] = {{-12, 10}, 0};  // the shoulder drawn without its rounding
    drawn.erase(drawn.begin() + 4);
    const auto found = deviationsOf(besideOutline(outlineOf(drawnPart()), outlineOf(drawn)), 0.01);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_NEAR(found[0].amountMm, 2, 0.02);  // a tenth of a micrometre beside the corner the arc is still steep
    EXPECT_GT(found[0].amountMm, 0);
}

// Any offset of the whole part along Z or X is found with its amount.
RC_GTEST_PROP(OutlineComparison, MovedAlongZShowsTheMove, ()) {
    const double by = *rc::gen::inRange(-200, 200) / 1e3;
    Contour cut = drawnPart();
    for (ContourCorner& corner : cut) corner.at.z += by;
    const auto found = deviationsOf(besideOutline(outlineOf(cut), outlineOf(drawnPart())), 0.011);
    if (std::abs(by) <= 0.011) {
        RC_ASSERT(found.empty());
        return;
    }
    double most = 0;
    for (const ContourDeviation& d : found) most = std::max(most, std::abs(d.amountMm));
    RC_ASSERT(std::abs(most - std::abs(by)) < 1e-3);  // beside the rounding the move is not square to the outline
}

firstoff::Setup bench() {
    auto setup = shop::barStock(50, 90);
    shop::addTurningTool(setup, 1, 'D', 0.4, 93);
    return setup;
}

const std::string kTurned =
    "G21 G40 G99\nG97 S900 M03\nT0101\nG00 X54. Z0\nG01 X-1. F.2\nG00 Z2.\nX54.\n"
    "G71 U2. R.5\nG71 P10 Q20 U.4 W.1 F.3\n"  // 8, 9
    "N10 G00 G42 X16.\nG01 X24. Z-2. F.2\nZ-20.\nX30. Z-30.\nZ-40.\nG02 X36. Z-43. R3.\nG01 X44.\nZ-60.\n"
    "N20 G40 X54.\nG70 P10 Q20\nG28 U0 W0\nM30\n";  // 19: G70

TEST(OutlineComparison, TakesTheProfileOfTheFinishingCycle) {
    auto setup = bench();
    setup.wanted.line = 19;
    const auto trial = shop::run(kTurned, setup);
    const GaugedPart& g = trial->gauged;
    ASSERT_EQ(g.outline.size(), 1u) << shop::found(*trial);
    EXPECT_TRUE(g.outlineOpen);
    EXPECT_EQ(shop::findings(*trial, "metal-left").size(), 0u);
    EXPECT_EQ(shop::findings(*trial, "metal-missing").size(), 0u) << shop::found(*trial);
    EXPECT_TRUE(g.deviations.empty()) << g.findings.front().message;
    // From the end face to where the flange meets the bar: as programmed.
    const double datum = setup.workOffsets[0].z;
    EXPECT_NEAR(g.outline[0].front().at.z - datum, 0, 0.15);
    EXPECT_NEAR(g.outline[0].front().at.r, 10, 0.15);
}

// Wear that makes the part thicker is found as metal left all along the cylinders; so is compensation left out.
TEST(OutlineComparison, FindsWhatTheProfileDoesNotShow) {
    auto setup = bench();
    setup.wanted.line = 19;
    Offset offset;
    offset.number = 1;
    offset.wear = {0, 0.05};
    setup.offsets.push_back(offset);
    const auto worn = shop::run(kTurned, setup);
    ASSERT_FALSE(worn->gauged.deviations.empty());
    double most = 0;
    for (const ContourDeviation& d : worn->gauged.deviations) most = std::max(most, d.amountMm);
    EXPECT_GE(most, 0.05 - 1e-6);
    EXPECT_LE(most, 0.05 * std::sqrt(2.0)) << "beside a corner of two surfaces";
    EXPECT_GE(shop::findings(*worn, "metal-left").size(), 1u);
    EXPECT_EQ(worn->verdict, Verdict::Problems);

    setup.offsets.clear();
    std::string without = kTurned;
    without.replace(without.find("G42 "), 4, "");
    const auto plain = shop::run(without, setup);
    // On the taper at 16.7° a nose of 0.4 leaves r (sin A + cos A - 1) = 0.098 square to it (tests/reference formulas);
    // the chamfer at 45° 0.166.
    double onChamfer = 0;
    for (const ContourDeviation& d : plain->gauged.deviations) onChamfer = std::max(onChamfer, d.amountMm);
    EXPECT_NEAR(onChamfer, 0.4 * (std::sqrt(2.0) - 1), 0.002);
}

TEST(OutlineComparison, SaysWhereThereIsNoProfile) {
    auto setup = bench();
    setup.wanted.line = 5;
    const auto trial = shop::run(kTurned, setup);
    const auto found = shop::findings(*trial, "drawing-not-compared");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_TRUE(found[0].unproven);
    EXPECT_THAT(found[0].message, testing::HasSubstr("line 5 holds no finishing cycle"));
}

// The outline of the part as a drawing: Ø24/30/44 with taper and rounding, on a bar that goes on behind Z-60.
Contour drawnTurned() {
    const double quarter = std::tan(std::acos(-1.0) / 8);
    return {{{-60, 0}, 0},  {{0, 0}, 0},           {{0, 10}, 0},   {{-2, 12}, 0},  {{-20, 12}, 0},
            {{-30, 15}, 0}, {{-40, 15}, -quarter}, {{-43, 18}, 0}, {{-43, 22}, 0}, {{-60, 22}, 0}};
}

std::string dxfOf(const std::vector<Contour>& contours, DrawingUnit unit = DrawingUnit::Millimetre) {
    std::vector<DrawnPath> paths;
    for (const Contour& contour : contours) paths.push_back({contour, true, "PART", 0});
    return dxfText(paths, unit);
}

firstoff::Setup drawnBench() {
    auto setup = bench();
    shop::addPartingTool(setup, 5, 3, 0.1);
    setup.wanted.file = "part.dxf";
    return setup;
}

const std::string kParted =
    kTurned.substr(0, kTurned.size() - 4) + "T0505\nG00 X54. Z-63.\nG01 X-.6 F.1\nG00 X54.\nM30\n";

TEST(OutlineComparison, ComparesWithADrawing) {
    const auto setup = withWantedDrawing(drawnBench(), dxfOf({drawnTurned()}));
    ASSERT_TRUE(setup.findings.empty()) << setup.findings.front().message;
    const auto trial = shop::run(kParted, setup);
    EXPECT_EQ(trial->gauged.piece, 1);
    ASSERT_EQ(trial->gauged.outline.size(), 1u);
    EXPECT_TRUE(trial->gauged.deviations.empty()) << trial->gauged.findings.front().message;
    Contour thinner = drawnTurned();
    thinner[4].at.r = thinner[3].at.r = 11.95;
    const auto off = shop::run(kParted, withWantedDrawing(drawnBench(), dxfOf({thinner})));
    const auto found = shop::findings(*off, "metal-left");
    ASSERT_FALSE(found.empty());
    EXPECT_NEAR(found[0].values[0].second, 0.05, 0.02);
}

TEST(OutlineComparison, SaysWhenTheDrawingLiesElsewhere) {
    Contour beside = drawnTurned();
    for (ContourCorner& corner : beside) corner.at.z += 80;
    auto setup = withWantedDrawing(drawnBench(), dxfOf({beside}));
    const auto found = shop::findings(*shop::run(kParted, setup), "drawing-not-compared");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_THAT(found[0].remedy, testing::HasSubstr("origin_z_mm"));
    auto placed = drawnBench();
    placed.wanted.originZ = -80;
    EXPECT_TRUE(shop::run(kParted, withWantedDrawing(placed, dxfOf({beside})))->gauged.deviations.empty());
}

TEST(OutlineComparison, IsNotProvenWithoutTheFile) {
    EXPECT_EQ(shop::findings(*shop::run(kParted, drawnBench()), "drawing-not-compared").size(), 1u);
}

}  // namespace
}  // namespace firstoff
