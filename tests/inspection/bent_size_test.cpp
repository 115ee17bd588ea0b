// Sizes with what part and bar give way, against the cantilever of tests/reference/deflection.csv: F a^3 / (3 E I).
#include "sim/inspection/bent_size.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/support/load_shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using Kind = WantedDimension::Kind;
using State = GaugedDimension::State;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double kYoung = 203.4e3;  // N/mm²: carbon steel, the row of deflection.csv

// The reference's second moment of a solid round bar.
double cantilever(double force, double length, double diameter) {
    return force * std::pow(length, 3) / (3 * kYoung * kPi * std::pow(diameter, 4) / 64);
}

WantedDimension diameter(double size, double z, double below, double above, bool inside = false) {
    WantedDimension d;
    d.size = size;
    d.at = d.to = {z, 0};
    d.below = below;
    d.above = above;
    d.inside = inside;
    return d;
}

GaugedPart gauged(shop::LoadedCut& cut) {
    cut.cutBar();
    const BendingResult bending = reckonBending(cut.timeline, cut.toolpath, cut.setup, cut.stock, cut.loads);
    return gaugePart(cut.timeline, cut.toolpath, cut.setup, cut.stock,
                     {cut.timeline, cut.toolpath, cut.setup, cut.loads, bending});
}

std::vector<std::string> codes(const GaugedPart& part) {
    std::vector<std::string> all;
    for (const Finding& finding : part.findings) all.push_back(finding.code);
    return all;
}

// A bar of 30, 120 out, a cut of 90 that takes next to nothing: larger at its free end, as the formula has it. Loads
// are given every 9 mm, and between them the size runs evenly; the bar is known to 2 µm of 120 along Z, 5e-5 of a^3.
TEST(BentSize, OfAShaftRunsAsTheCantileverDoes) {
    shop::LoadedCut cut(30, 120);
    cut.turn(14.999, 90, 0.1, 800, {400, -150, -200});
    cut.setup.wanted.dimensions = {diameter(29.998, -30, -0.5, 0.5)};
    const GaugedPart part = gauged(cut);
    ASSERT_EQ(part.dimensions.size(), 1u);
    const GaugedDimension& g = part.dimensions[0];
    const auto error = [](double a) {
        const double radial = cantilever(200, a, 30), across = cantilever(400, a, 30);
        return 2 * (std::hypot(14.999 + radial, across) - 14.999);
    };
    EXPECT_TRUE(part.bendingKnown);
    EXPECT_EQ(g.state, State::Within);
    EXPECT_NEAR(g.measured, 29.998, 1e-6);
    EXPECT_NEAR(g.largest.size - 29.998, error(120), 2e-4 * error(120));
    EXPECT_NEAR(g.bending, error(120), 2e-4 * error(120)) << "judged where it is worst";
    EXPECT_NEAR(g.largest.place.z, 150, 0.002);
    // The nose leaves a fillet of 0.4 at the inner end.
    const double a = g.smallest.place.z - 30, share = (a - 30) / 9;
    EXPECT_NEAR(a, 30.4, 0.1);
    const double inner = error(30) + share * (error(39) - error(30));
    EXPECT_NEAR(g.smallest.size - 29.998, inner, 1e-3 * inner);
    ASSERT_TRUE(g.wish);
    EXPECT_NEAR(g.wish->amountMm, -(error(120) + inner) / 2, 1e-3 * error(120)) << "its middle to the middle";
}

// Bored to 31.003 by a bar of 16 that stands out 64, steel, with 120 N across: the path is within H7, the bore is not.
// The part, a tube of 150 held short, gives way less than a hundredth of that.
shop::LoadedCut boredBush(double radialN) {
    shop::LoadedCut cut(150, 40, 28);
    Tool& bar = shop::addBoringBar(cut.setup, 2, 'C', 0.4);
    bar.shankSize = 16;
    bar.overhang = 64;
    bar.shank = Tool::Shank::Steel;
    cut.take(2);
    cut.turnBetween(15.5015, 70, 40, 0.1, 1200, {200, -60, radialN});
    WantedDimension bore = diameter(31, -10, 0, 0, true);
    bore.above = bore.below = std::nullopt;
    bore.fit = "H7";
    cut.setup.wanted.dimensions = {bore};
    return cut;
}

TEST(BentSize, OfABoreThatTheBarGivesWayIn) {
    shop::LoadedCut cut = boredBush(120);
    const GaugedPart part = gauged(cut);
    const GaugedDimension& g = part.dimensions.at(0);
    EXPECT_NEAR(g.measured, 31.003, 1e-6);
    EXPECT_NEAR(g.bending, -2 * cantilever(120, 64, 16), 0.02 * 2 * cantilever(120, 64, 16));
    EXPECT_EQ(g.state, State::TooSmall);
    EXPECT_THAT(codes(part), testing::ElementsAre("size-out-with-bending"));
    const Finding& finding = part.findings.at(0);
    EXPECT_EQ(finding.severity, Severity::Warning);
    EXPECT_THAT(finding.message, HasSubstr("Ø31 H7 comes to 31.003 mm by the path of the tool, which is within 31.000 "
                                           "and 31.025; with what part and bar give way it comes to 30.97"));
    EXPECT_THAT(finding.message, HasSubstr("That is an estimate, rather less than the truth."));
    EXPECT_THAT(finding.remedy, HasSubstr("in X of offset 2"));
    ASSERT_EQ(part.corrections.size(), 1u);
    // The size to be expected comes to the middle, keyed to a thousandth.
    EXPECT_NEAR(g.expected() + part.corrections[0].amountMm, 31.0125, 0.001);
}

TEST(BentSize, IsNotedWhereBendingBringsASizeWithin) {
    shop::LoadedCut cut = boredBush(40);
    cut.setup.wanted.dimensions = {diameter(30.99, -10, -0.01, 0.01, true)};
    const GaugedPart part = gauged(cut);
    EXPECT_EQ(part.dimensions.at(0).state, State::Within);
    EXPECT_THAT(codes(part), testing::ElementsAre("size-within-with-bending"));
    EXPECT_EQ(part.findings.at(0).severity, Severity::Note);
}

TEST(BentSize, IsThatOfThePathWhereNothingIsKnown) {
    shop::LoadedCut cut = boredBush(120);
    cut.setup.material = {};
    cut.loads.forcesKnown = false;
    const GaugedPart part = gauged(cut);
    const GaugedDimension& g = part.dimensions.at(0);
    EXPECT_FALSE(part.bendingKnown);
    EXPECT_TRUE(std::isnan(g.bending));
    EXPECT_THAT(g.bendingNote, HasSubstr("material in [stock]"));
    EXPECT_EQ(g.state, State::Within);
    EXPECT_THAT(part.findings, IsEmpty());
    EXPECT_THAT(part.assumed, testing::Contains(HasSubstr("what part and bar give way is not known")));
}

// A pass over the same diameter takes off some of what bent away (common practice, no source); how much nobody knows.
TEST(BentSize, IsNotToldAfterASecondPassOnTheSameDiameter) {
    shop::LoadedCut cut = boredBush(120);
    cut.turnBetween(15.5015, 70, 40, 0.1, 1200, {});
    const GaugedPart part = gauged(cut);
    const GaugedDimension& g = part.dimensions.at(0);
    EXPECT_TRUE(std::isnan(g.bending));
    EXPECT_THAT(g.bendingNote, HasSubstr("a later pass on the same diameter takes off some of the -0.03"));
    EXPECT_EQ(g.state, State::Within);
    EXPECT_THAT(part.findings, IsEmpty());
}

// A blade that goes in and out leaves its bottom with the force it has there; two turns of dwell and it has none.
TEST(BentSize, OfAGrooveThatIsPlunged) {
    auto setup = shop::barStock(30, 100);
    shop::addGroovingTool(setup, 3, 3, 0.1);
    setup.material.name = "test steel";
    setup.material.kc11 = 2000;
    setup.material.mc = 0.25;
    setup.material.youngGPa = 203.4;
    setup.wanted.dimensions = {diameter(26, -3, -0.2, 0.2)};
    const auto run = [&](const std::string& dwell) {
        return shop::run(
            "G21 G40 G99\nG97 S600 M03\nT0303\nG00 X32. Z-5.\nG01 X26. F.1\n" + dwell + "G00 X40.\nG28 U0 W0\nM30\n",
            setup);
    };
    const auto plain = run(""), dwelt = run("G04 X0.2\n");
    const GaugedDimension &a = plain->gauged.dimensions.at(0), &b = dwelt->gauged.dimensions.at(0);
    ASSERT_EQ(a.state, State::Within) << a.trouble;
    ASSERT_FALSE(std::isnan(a.bending)) << a.bendingNote;
    EXPECT_GT(a.bending, 0.001);
    // The force across is that of the feed of the blade; how far the bar gives way at 94 mm.
    const LoadRun* cut = plain->loads.runOf(a.cut);
    ASSERT_NE(cut, nullptr);
    double force = 0;
    for (std::uint32_t i = cut->first; i < cut->first + cut->count; ++i) {
        if (plain->loads.samples[i].chipAreaMm2 > 0) force = -double{plain->loads.samples[i].forceRN};
    }
    // The middle of the blade stands at Z-3.5, 95.5 from the jaws; the groove itself makes the bar a little weaker.
    EXPECT_NEAR(a.bending, 2 * cantilever(force, 95.5, 30), 0.05 * a.bending);
    ASSERT_FALSE(std::isnan(b.bending)) << b.bendingNote;
    EXPECT_EQ(b.bending, 0);
}

// A cone of 1 on 90, thinner at the free end, where the part gives way more: its angle comes out smaller.
TEST(BentSize, OfATaperComesFromBothItsEnds) {
    shop::LoadedCut cut(30, 120);
    cut.turn(14.999, 90, 0.1, 800, {400, -150, -200});
    cut.cutBar();
    const BendingResult bending = reckonBending(cut.timeline, cut.toolpath, cut.setup, cut.stock, cut.loads);
    const CutBending bent(cut.timeline, cut.toolpath, cut.setup, cut.loads, bending);
    const CutId by = cut.loads.runs.at(0).timedMove;
    GaugeReading reading;
    reading.value = 2 * std::atan(1.0 / 90);
    reading.places = {{150, 13.9}, {60, 14.9}};
    for (const Point& p : reading.places) reading.stretches.push_back({p, p, by, 0});
    GaugedDimension g;
    g.wanted.kind = Kind::Taper;
    countBending(g, reading, bent);
    const auto gives = [](double a) {
        return std::hypot(14.999 + cantilever(200, a, 30), cantilever(400, a, 30)) - 14.999;
    };
    const double wanted = 2 * std::atan((1 + gives(30) - gives(120)) / 90);
    EXPECT_LT(g.bending, 0);
    // The bar is known to 2 µm of 120 along Z.
    EXPECT_NEAR(g.expected(), wanted, 2e-4 * (*reading.value - wanted));
}

// The nose leaves its radius whatever gives way.
TEST(BentSize, OfARoundingIsNone) {
    shop::LoadedCut cut(30, 120);
    cut.turn(14, 60, 0.1, 800, {400, -150, -200});
    WantedDimension rounding = diameter(0.4, -58.9, -0.1, 0.1);
    rounding.kind = Kind::Radius;
    rounding.at.r = 14.1;
    cut.setup.wanted.dimensions = {rounding};
    const GaugedPart part = gauged(cut);
    EXPECT_EQ(part.dimensions.at(0).state, State::Within) << part.dimensions[0].trouble;
    EXPECT_EQ(part.dimensions.at(0).bending, 0);
}

}  // namespace
}  // namespace firstoff
