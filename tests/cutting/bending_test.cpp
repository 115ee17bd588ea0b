// How far part and bar give way, on cuts with loads given by hand; formulas by tests/reference/deflection.csv.
#include "sim/cutting/bending.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "sim/cutting/beam.h"
#include "sim/cutting/bending_findings.h"
#include "sim/cutting/part_beam.h"
#include "tests/support/load_shop.h"
#include "tests/support/reckoned_cut.h"
#include "tests/support/reference_rows.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kYoung = 203.4;

BendingResult bending(shop::LoadedCut& cut) {
    cut.cutBar();
    return reckonBending(cut.timeline, cut.toolpath, cut.setup, cut.stock, cut.loads);
}

// A bar of 30, 120 out of the jaws, a cut that takes next to nothing. Samples are floats: seven digits.
TEST(Bending, OfAPlainBarInTheChuck) {
    shop::LoadedCut cut(30, 120);
    cut.turn(14.999, 90, 0.1, 800, {400, -150, -200});
    const BendingResult result = bending(cut);
    ASSERT_TRUE(result.known);
    const double ei = roundStiffness(kYoung, 30);
    for (std::size_t i = 0; i < cut.loads.samples.size(); ++i) {
        const double a = double{cut.loads.samples[i].atZ} - 30, c = a * a * a / (3 * ei);
        const BendingSample& s = result.samples[i];
        // The bar is known to 2 µm along Z, of 120.
        EXPECT_NEAR(double{s.partMm}, -200 * c, 1e-4 * 200 * c + 1e-9);
        EXPECT_EQ(s.barMm, 0);
        // Twice what it gives way, and a little for what it gives way across.
        const double error = 2 * (std::hypot(14.999 + 200 * c, 400 * c) - 14.999);
        EXPECT_NEAR(double{s.diameterErrorMm}, error, 1e-4 * error + 1e-9);
        EXPECT_GT(s.diameterErrorMm, 0);
    }
    ASSERT_EQ(result.tools.size(), 1u);
    EXPECT_TRUE(result.tools[0].finishes);
    EXPECT_GT(result.tools[0].greatest.z, result.tools[0].least.z);  // most at the free end
    EXPECT_THAT(result.assumed, Contains(HasSubstr("clamped rigidly at the front of the jaws")));
}

TEST(Bending, ACentreHoldsTheEnd) {
    shop::LoadedCut cut(30, 120);
    Tailstock& t = cut.setup.tailstock.emplace();
    t.centreAngle = 1;
    t.centreRadius = 14;
    t.tipZ = 145;
    t.advanced = true;
    cut.turn(14.999, 90, 0.1, 800, {400, -150, -200});
    const BendingResult result = bending(cut);
    const double ei = roundStiffness(kYoung, 30), l = 120;
    for (std::size_t i = 1; i < cut.loads.samples.size(); ++i) {
        const double a = double{cut.loads.samples[i].atZ} - 30, b = l - a;
        const double wanted = 200 * std::pow(a, 3) * b * b * (4 * l - a) / (12 * ei * std::pow(l, 3));
        // The place of the end is known to 2 µm, and b begins at 9 mm.
        EXPECT_NEAR(-double{result.samples[i].partMm}, wanted, 1e-3 * wanted);
    }
    EXPECT_EQ(result.samples[0].partMm, 0);
}

// Turned to 20 first over 60 mm: the second cut meets a stepped bar.
TEST(Bending, TakesThePartAsItIsAtThatInstant) {
    shop::LoadedCut cut(30, 120);
    cut.turn(10, 60, 0.1, 800, {400, 0, -100});
    cut.turn(9.999, 55, 0.1, 800, {400, 0, -100});
    const BendingResult result = bending(cut);
    const Beam before({0, 120}, {roundStiffness(kYoung, 30)});
    // The nose of 0.4 leaves its round at the shoulder.
    const Beam after({0, 60, 120}, {roundStiffness(kYoung, 30), roundStiffness(kYoung, 20)});
    EXPECT_NEAR(-double{result.samples[0].partMm}, 100 * before.clamped(120, 120), 1e-5);
    // Stations of 0.47 mm: a step is known to half of that, of 60.
    const double wanted = 100 * after.clamped(120, 120);
    EXPECT_NEAR(-double{result.samples[11].partMm}, wanted, 0.01 * wanted);
    EXPECT_GT(wanted, 1.2 * 100 * before.clamped(120, 120));
}

TEST(Bending, InTheJawsNothingGives) {
    shop::LoadedCut cut(30, 60);
    cut.turnBetween(14.999, 29, 25, 0.1, 800, {400, 0, -200});
    const BendingResult result = bending(cut);
    EXPECT_EQ(result.samples.back().partMm, 0);
}

// Steel bar of 16, 64 out; a tube of 80 with a bore of 40.
shop::LoadedCut boredTube(double overhang, Tool::Shank shank = Tool::Shank::Steel) {
    shop::LoadedCut cut(80, 60, 40);
    Tool& bar = shop::addBoringBar(cut.setup, 6, 'C', 0.4);
    bar.shankSize = 16;
    bar.overhang = overhang;
    bar.shank = shank;
    cut.take(6);
    return cut;
}

TEST(Bending, OfABoringBarMakesTheBoreSmaller) {
    shop::LoadedCut cut = boredTube(64);
    cut.turn(20.001, 40, 0.1, 800, {150, -60, 100});
    const BendingResult result = bending(cut);
    const double c = std::pow(64.0, 3) / (3 * roundStiffness(kYoung, 16));
    EXPECT_NEAR(barFlexibility(cut.setup.tools[1]), c, 1e-12);
    const double part = Beam({0, 60}, {roundStiffness(kYoung, 80, 40)}).clamped(60, 60);
    EXPECT_NEAR(double{result.samples[0].barMm}, -100 * c, 1e-6);
    EXPECT_NEAR(double{result.samples[0].partMm}, 100 * part, 1e-3 * 100 * part);
    const double gives = c + part;
    const double error = 2 * (std::hypot(20.001 - 100 * gives, 150 * gives) - 20.001);
    EXPECT_LT(error, 0);
    EXPECT_NEAR(double{result.samples[0].diameterErrorMm}, error, 1e-5);
    ASSERT_EQ(result.tools.size(), 2u);
    EXPECT_DOUBLE_EQ(result.tools[1].overhangRatio, 4);
    EXPECT_GT(result.tools[1].barShare, 0.9);
}

TEST(Bending, ModulusOfBarsIsThatOfTheReference) {
    const auto young = [](const std::string& name) {
        for (const shop::ReferenceRow& row : shop::referenceRows("deflection.csv")) {
            if (row.text("kind") == "E_modulus" && row.text("case") == name) return row.number("value").value();
        }
        return 0.0;
    };
    EXPECT_EQ(barModulusGPa(Tool::Shank::Steel), young("carbon steel"));
    EXPECT_EQ(barModulusGPa(Tool::Shank::Damped), young("carbon steel"));
    EXPECT_EQ(barModulusGPa(Tool::Shank::Carbide), young("cemented carbide (boring bars)"));
}

struct Overhang {
    const char* name;
    double times;
    Tool::Shank shank;
    std::vector<std::string> said;
};
void PrintTo(const Overhang& row, std::ostream* out) {
    *out << row.name;
}
class OverhangOfABar : public testing::TestWithParam<Overhang> {};
TEST_P(OverhangOfABar, IsHeldAgainstWhatItIsMadeOf) {
    shop::LoadedCut cut = boredTube(16 * GetParam().times, GetParam().shank);
    cut.turn(20.001, 40, 0.1, 800, {1, 0, 1});
    std::vector<std::string> said;
    for (const Finding& f : bending(cut).findings) {
        said.push_back(f.code + (f.severity == Severity::Note ? " (note)" : ""));
    }
    EXPECT_EQ(said, GetParam().said);
}
// Rows "rule_of_thumb" of deflection.csv: steel up to 4, carbide 6, damped steel 7, damped carbide 10 to 14, all
// opened.
INSTANTIATE_TEST_SUITE_P(
    Bending, OverhangOfABar,
    testing::Values(Overhang{"steel at its limit", 4, Tool::Shank::Steel, {}},
                    Overhang{"steel", 4.1, Tool::Shank::Steel, {"boring-bar-overhang (note)"}},
                    Overhang{"steel where carbide ends", 6.1, Tool::Shank::Steel, {"boring-bar-overhang"}},
                    Overhang{"carbide", 6, Tool::Shank::Carbide, {}},
                    Overhang{"carbide too long", 6.5, Tool::Shank::Carbide, {"boring-bar-overhang (note)"}},
                    Overhang{"damped", 7, Tool::Shank::Damped, {}},
                    Overhang{"damped carbide", 10, Tool::Shank::DampedCarbide, {}},
                    Overhang{"damped carbide far out", 14.1, Tool::Shank::DampedCarbide, {"boring-bar-overhang"}}));

TEST(Bending, SaysWhatTheFinishedDiameterWillBe) {
    // 14 mm free over 110: 160 N at the end give 0.186 mm in diameter.
    shop::LoadedCut cut(16, 110);
    cut.turn(7.999, 100, 0.1, 800, {160, -60, -80});
    const BendingResult result = bending(cut);
    ASSERT_THAT(shop::codes(result.findings), ElementsAre("finish-bends-away"));
    const Finding& f = result.findings[0];
    EXPECT_EQ(f.severity, Severity::Warning);
    EXPECT_GT(result.tools[0].greatest.errorMm, kBentWarningMm);
    EXPECT_THAT(f.message, HasSubstr("at Z1.000 the diameter comes out"));
    EXPECT_THAT(f.message, HasSubstr("larger than programmed"));
    EXPECT_THAT(f.message, HasSubstr("No offset takes out the difference"));
    EXPECT_THAT(f.remedy, HasSubstr("bring up a centre"));
}

// Half of the nose stands in metal before its lowest point, which leaves the diameter, has got there: forces that grow
// from nothing over that way leave no surface. A stubby bar, so that what is left differs little.
TEST(Bending, LeavesOutWhereTheEdgeIsOnlyEntering) {
    auto setup = shop::barStock(20, 60, 0);
    shop::addTurningTool(setup, 1, 'D', 1.2, 93);
    setup.material = shop::material(2500, 0.26);
    setup.material.youngGPa = kYoung;
    const auto cut = shop::cutAndReckon("T0101\nG97 G99 S1200 M03\nG00 X19 Z2\nG01 Z-5 F.2\nG00 X24\nM30\n", setup);
    const BendingResult result = reckonBending(cut.timeline, cut.toolpath, cut.setup, cut.stock, cut.loads);
    ASSERT_EQ(result.tools.size(), 1u);
    ASSERT_TRUE(result.tools[0].finishes);
    const LoadRun& run = *cut.loads.runOf(cut.cutsOfLine(4).at(0));
    float leastOfAll = 1;
    for (std::uint32_t i = run.first; i < run.first + run.count; ++i) {
        if (cut.loads.samples[i].chipAreaMm2 > 0) leastOfAll = std::min(leastOfAll, result.samples[i].diameterErrorMm);
    }
    const double greatest = result.tools[0].greatest.errorMm, least = result.tools[0].least.errorMm;
    EXPECT_LT(leastOfAll, 0.2 * greatest) << "it comes in from nothing";
    // The cantilever's share at 55 mm of what it gives at 60: 0.77.
    EXPECT_GT(least, 0.7 * greatest);
    EXPECT_LT(least, greatest);
}

// The first cut bends far, the second, over the same surface, does not: what it leaves counts.
TEST(Bending, TheLastCutOverASurfaceCounts) {
    shop::LoadedCut cut(16, 110);
    cut.turn(7.5, 100, 0.1, 800, {800, -60, -400});
    cut.turn(7.4, 100.5, 0.1, 800, {10, -1, -1});
    const BendingResult result = bending(cut);
    EXPECT_THAT(shop::codes(result.findings), IsEmpty());
    EXPECT_GT(std::abs(double{result.samples[0].diameterErrorMm}), kBentWarningMm);
    EXPECT_LT(std::abs(result.tools[0].greatest.errorMm), kBentNoteMm);
}

TEST(Bending, AFaceIsNoDiameter) {
    shop::LoadedCut cut(40, 110);
    cut.setup.stock.frontZ += 0.5;
    cut.face(20, 5, 0.1, 100, {300, -200, -100});
    const BendingResult result = bending(cut);
    EXPECT_NE(result.samples[0].partMm, 0);
    EXPECT_EQ(result.samples[0].diameterErrorMm, 0);
    EXPECT_FALSE(result.tools[0].finishes);
}

TEST(Bending, WithoutAModulusThePartIsNotKnown) {
    shop::LoadedCut cut(30, 120);
    cut.setup.material.youngGPa = 0;
    cut.turn(14.9, 90, 0.1, 800, {400, -150, -2000});
    const BendingResult result = bending(cut);
    EXPECT_FALSE(result.known);
    EXPECT_TRUE(std::isnan(result.samples[0].partMm));
    EXPECT_TRUE(std::isnan(result.samples[0].diameterErrorMm));
    EXPECT_THAT(result.missing, ElementsAre(HasSubstr("modulus of elasticity")));
    EXPECT_THAT(result.findings, IsEmpty());
    EXPECT_FALSE(result.tools[0].finishes);
}

TEST(Bending, WithoutForcesThereAreNoSamples) {
    shop::LoadedCut cut = boredTube(16 * 4.5);
    cut.turn(20.001, 40, 0.1, 800, {});
    cut.loads.forcesKnown = false;
    const BendingResult result = bending(cut);
    EXPECT_FALSE(result.known);
    EXPECT_THAT(result.samples, IsEmpty());
    // What needs no force is said all the same.
    EXPECT_THAT(shop::codes(result.findings), ElementsAre("boring-bar-overhang"));
}

// --- The part as a beam ----------------------------------------------------------------------------------------------

TEST(PartBeam, OfATube) {
    const auto setup = shop::barStock(60, 80, 1, 40);
    const auto part = partBeam(Billet(setup.stock), 30, kYoung);
    ASSERT_TRUE(part);
    EXPECT_NEAR(part->beam.lengthMm(), 80, 1e-9);
    const double wanted = std::pow(80.0, 3) / (3 * roundStiffness(kYoung, 60, 40));
    EXPECT_NEAR(part->beam.clamped(80, 80), wanted, 1e-9 * wanted);
}

// A hexagon counts as the circle that fits into it.
TEST(PartBeam, OfAHexagonIsNeverStifferThanItIs) {
    auto setup = shop::barStock(30, 80);
    setup.stock.shape = Stock::Shape::Hexagon;
    setup.stock.acrossFlats = 26;
    setup.stock.outerRadius = 13 / std::cos(3.14159265358979 / 6);
    const auto part = partBeam(Billet(setup.stock), 30, kYoung);
    ASSERT_TRUE(part);
    const double circle = std::pow(80.0, 3) / (3 * roundStiffness(kYoung, 26));
    // 256 sectors: the nearest to the middle of a flat stands at most half a step off.
    EXPECT_NEAR(part->beam.clamped(80, 80), circle, 1e-3 * circle);
}

TEST(PartBeam, OfWhatDoesNotStandOut) {
    const auto setup = shop::barStock(30, 80);
    EXPECT_FALSE(partBeam(Billet(setup.stock), 110, kYoung));
    EXPECT_FALSE(partBeam(Billet(setup.stock), 200, kYoung));
}

}  // namespace
}  // namespace firstoff
