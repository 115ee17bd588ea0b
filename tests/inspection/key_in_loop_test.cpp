// What is told to be keyed in, keyed in: the program run again on the corrected offset page leaves all sizes within.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "sim/inspection/correction_words.h"
#include "sim/output/setup_files.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using State = GaugedDimension::State;

Offset& offsetOf(firstoff::Setup& setup, int number) {
    auto at = setup.offsets.begin();
    while (at != setup.offsets.end() && at->number < number) ++at;
    if (at != setup.offsets.end() && at->number == number) return *at;
    Offset offset;
    offset.number = number;
    return *setup.offsets.insert(at, offset);  // they stand in order of their numbers
}

// As the page counts: X as diameter, and added.
void keyIn(firstoff::Setup& setup, int number, double xMm, double zMm) {
    Offset& offset = offsetOf(setup, number);
    offset.wear.r += xMm / 2;
    offset.wear.z += zMm;
}

void keyIn(firstoff::Setup& setup, const GaugedPart& part) {
    for (const OffsetCorrection& c : part.corrections) {
        keyIn(setup, c.offset, c.inX ? c.amountMm : 0, c.inX ? 0 : c.amountMm);
    }
}

std::string notWithin(const GaugedPart& part) {
    std::string text;
    for (const GaugedDimension& d : part.dimensions) {
        if (d.state != State::Within) text += fmt::format("{}: {} {}; ", d.name, d.expected(), d.trouble);
    }
    return text;
}

struct Wear {
    int offset;
    double xMm, zMm;
};

struct Job {
    const char* name;
    std::vector<Wear> wear;  // as if the tools had been gauged wrong
};

class KeyInLoop : public testing::TestWithParam<Job> {};

TEST_P(KeyInLoop, BringsAllDimensionsOfTheJobWithin) {
    const std::string base = std::string("assets/jobs/") + GetParam().name;
    const std::string path = std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml";
    const auto run = [&](firstoff::Setup setup) {
        return runTrial(readProgram(shop::readFile(base + ".nc"), GetParam().name), std::move(setup));
    };
    firstoff::Setup setup = readSetup(shop::readFile(base + ".toml"), path, setupFilesBeside(path));
    for (const Wear& wear : GetParam().wear) keyIn(setup, wear.offset, wear.xMm, wear.zMm);
    const auto before = run(setup);
    ASSERT_NE(notWithin(before->gauged), "");
    for (const OffsetCorrection& c : before->gauged.corrections) {
        EXPECT_TRUE(c.possible) << correctionInWords(before->gauged, c);
    }
    keyIn(setup, before->gauged);
    const auto after = run(setup);
    EXPECT_EQ(notWithin(after->gauged), "");
}

INSTANTIATE_TEST_SUITE_P(Jobs, KeyInLoop,
                         testing::Values(Job{"coupling-spigot", {{3, 0.08, 0.05}, {5, -0.3, 0.02}, {7, 0, -0.6}}},
                                         Job{"bored-bush", {{2, 0.7, 0}, {8, -0.06, 0.15}, {10, 0, 0.5}}},
                                         Job{"union-sleeve", {{3, -0.09, 0.1}, {6, 0.05, -0.3}, {7, 0, 0.5}}}),
                         [](const auto& row) {
                             std::string name = row.param.name;
                             for (char& c : name) c = c == '-' ? '_' : c;
                             return name;
                         });

WantedDimension diameter(double size, double z, double below, double above) {
    WantedDimension d;
    d.size = size;
    d.at = d.to = {z, 0};
    d.below = below;
    d.above = above;
    return d;
}

// Two diameters by one tool in one pass; C45 by its figures, so that bending counts.
firstoff::Setup steps() {
    auto setup = shop::barStock(40, 90);
    shop::addTurningTool(setup, 1, 'C', 0.4, 95);
    keyIn(setup, 1, 0, 0);
    setup.material.name = "test steel";
    setup.material.kc11 = 2000;
    setup.material.mc = 0.25;
    setup.material.youngGPa = 203.4;
    return setup;
}
const char* const kSteps =
    "G21 G40 G99\nG97 S900 M03\nT0101\nG00 X44. Z2.\nX31.\nG01 Z-45. F.2\nX36.\nZ-60.\nX44.\nG00 Z2.\nX30.\n"
    "G01 Z-45. F.1\nX35.\nZ-60.\nX44.\nG28 U0 W0\nM30\n";

TEST(KeyInLoop, BringsTwoDiametersOfOneToolWithin) {
    auto setup = steps();
    setup.wanted.dimensions = {diameter(30, -20, -0.04, 0.0), diameter(35, -52, -0.02, 0.02)};
    keyIn(setup, 1, 0.05, 0);
    const auto before = shop::run(kSteps, setup);
    ASSERT_EQ(before->gauged.corrections.size(), 1u);
    ASSERT_TRUE(before->gauged.bendingKnown);
    EXPECT_EQ(shop::findings(*before, "size-out-of-limits").size(), 2u);
    keyIn(setup, before->gauged);
    const auto after = shop::run(kSteps, setup);
    EXPECT_EQ(notWithin(after->gauged), "");
}

// One wants less, the other more than the same offset gives: said so, nothing to key in, and indeed no wear does.
TEST(KeyInLoop, SaysWhereOneOffsetCannotMeetBoth) {
    auto setup = steps();
    setup.wanted.dimensions = {diameter(30, -20, -0.10, -0.06), diameter(35, -52, -0.01, 0.03)};
    const auto trial = shop::run(kSteps, setup);
    ASSERT_EQ(trial->gauged.corrections.size(), 1u);
    EXPECT_FALSE(trial->gauged.corrections[0].possible);
    EXPECT_THAT(correctionInWords(trial->gauged, trial->gauged.corrections[0]),
                testing::HasSubstr("Offset 1 cannot meet all its dimensions in X: Ø30 wants -0."));
    const auto found = shop::findings(*trial, "size-out-of-limits");
    ASSERT_FALSE(found.empty());
    EXPECT_THAT(found[0].remedy, testing::EndsWith("Correct the program."));
    for (const double x : {-0.10, -0.08, -0.06, -0.04, -0.02, 0.0}) {
        auto worn = setup;
        keyIn(worn, 1, x, 0);
        EXPECT_NE(notWithin(shop::run(kSteps, worn)->gauged), "") << x;
    }
}

}  // namespace
}  // namespace firstoff
