// Where one part departs from another, as a gauge would meet it.
#include "sim/training/part_difference.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

// A shaft of 30 over 20 mm on a bar of 40, chamfered, grooved and parted off at 40; pieces of it can be replaced.
std::string shaft(const std::string& what = "", const std::string& with = "") {
    std::string text =
        "T0101\nG97 S800 M03\nG00 X44. Z0\nG01 X-1.6 F.2\nG00 Z2.\nX36.\nG01 Z-20.\nX42.\nG00 Z2.\nX30.\nG01 "
        "Z-20.\nX42.\n"
        "G28 U0 W0\nT0303\nG97 S800 M03\nG00 X42. Z-30.\nG01 X34. F.08\nG00 X42.\nG28 U0 W0\n"
        "T0505\nG97 S800 M03\nG00 X42. Z-40.\nG01 X-.6 F.08\nG00 X42.\nG28 U0 W0\nM30\n";
    const std::size_t at = text.find(what);
    return what.empty() ? text : text.replace(at, what.size(), with);
}

firstoff::Setup setup() {
    auto setup = shop::barStock(40, 70);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addGroovingTool(setup, 3, 3, 0.2);
    shop::addPartingTool(setup, 5, 3, 0.2);
    return setup;
}

PartDifference between(const std::string& made, const std::string& model, double tolerance = 0.01) {
    return differenceOf(*shop::run(made, setup()), *shop::run(model, setup()), tolerance);
}

std::string words(const PartDifference& difference) {
    std::string text;
    for (const OutlineDeparture& departure : difference.outline) text += inWords(departure) + "\n";
    for (const auto* list : {&difference.threads, &difference.pieces}) {
        for (const std::string& one : *list) text += one + "\n";
    }
    return text;
}

TEST(PartDifference, ThereIsNoneFromItself) {
    EXPECT_TRUE(between(shaft(), shaft()).none());
    EXPECT_TRUE(between(shaft("X36.\nG01", "X35.\nG01"), shaft()).none()) << "roughed otherwise";
}

struct Row {
    const char* what;
    const char* with;
    const char* told;  // the first of it
};

class Departure : public testing::TestWithParam<Row> {};

TEST_P(Departure, IsToldWithItsAmount) {
    const PartDifference difference = between(shaft(GetParam().what, GetParam().with), shaft());
    EXPECT_TRUE(difference.compared);
    EXPECT_FALSE(difference.none());
    EXPECT_THAT(words(difference), HasSubstr(GetParam().told));
}

INSTANTIATE_TEST_SUITE_P(Rows, Departure,
                         testing::Values(Row{"X30.", "X30.1", "up to 0.100 mm too large in diameter"},
                                         Row{"X30.", "X29.9", "up to 0.100 mm too small in diameter"},
                                         Row{"X30.\nG01 Z-20.", "X30.\nG01 Z-19.8", "up to 0.200 mm of metal too much"},
                                         Row{"X44. Z0", "X44. Z.3", "up to 0.300 mm of metal too much"},
                                         // The floor of the groove.
                                         Row{"G01 X34. F.08", "G01 X34.4 F.08",
                                             "up to 0.400 mm too large in diameter, near X34.4"},
                                         Row{"Z-30.\nG01 X34.", "Z-30.5\nG01 X34.", "metal too"},
                                         Row{"Z-40.\nG01", "Z-41.\nG01", "up to 1.000 mm of metal too much"},
                                         Row{"G01 X-.6 F.08", "G01 X12. F.08", "not cut off"}));

// A groove far narrower than the tolerance is wide at its mouth, and a burr as thin, are seen by their depth.
TEST(PartDifference, SeesAGrooveThatDoesNotBelongThere) {
    const std::string more = "G00 X42. Z-35.\nG01 X30. F.08\nG00 X42.\nG28 U0 W0\nT0505";
    const std::string with = shaft("G28 U0 W0\nT0505", more);
    EXPECT_THAT(words(between(with, shaft(), 2.0)), HasSubstr("too small"));
    EXPECT_THAT(words(between(shaft(), with, 2.0)), HasSubstr("too large"));
}

TEST(PartDifference, KeepsWithinItsTolerance) {
    const std::string larger = shaft("X30.", "X30.1");  // 0.05 on the surface
    EXPECT_TRUE(between(larger, shaft(), 0.051).none());
    EXPECT_FALSE(between(larger, shaft(), 0.049).none());
}

TEST(PartDifference, WithoutAPartNothingIsCompared) {
    const Trial nothing;
    const auto model = shop::run(shaft(), setup());
    EXPECT_FALSE(differenceOf(nothing, *model, 1).none());
    EXPECT_FALSE(differenceOf(*model, nothing, 1).none());
    EXPECT_FALSE(differenceOf(nothing, nothing, 1).compared);
}

std::string thread(const std::string& cycle) {
    return "T0101\nG97 S600 M03\nG00 X50. Z8.\n" + cycle + "\nG28 U0 W0\nM30\n";
}

PartDifference betweenThreads(const std::string& made, const std::string& model) {
    auto setup = shop::barStock(40, 80);
    shop::addThreadingTool(setup, 1);
    return differenceOf(*shop::run(thread(made), setup), *shop::run(thread(model), setup), 0.02);
}

const std::string kThread = "G92 X39.4 Z-20. F1.5\nX38.8\nX38.4\nX38.16";

TEST(PartDifference, ComparesThreadsByLeadDepthAndEnd) {
    EXPECT_THAT(betweenThreads(kThread, kThread).threads, IsEmpty());
    EXPECT_THAT(betweenThreads("G92 X39.2 Z-20. F1.5\nX38.16", kThread).threads, IsEmpty()) << "in other passes";
    EXPECT_THAT(betweenThreads("G92 X39.4 Z-20. F1.5\nX38.8\nX38.4", kThread).threads, SizeIs(1)) << "too shallow";
    EXPECT_THAT(betweenThreads("G92 X39.4 Z-17. F1.5\nX38.16", kThread).threads, SizeIs(1)) << "too short";
    EXPECT_THAT(betweenThreads("G92 X39.4 Z-20. F1.25\nX38.16", kThread).threads, SizeIs(2))
        << "one missing, one too many";
    EXPECT_THAT(betweenThreads("G00 X50.", kThread).threads, SizeIs(1));
    EXPECT_THAT(betweenThreads(kThread, "G00 X50.").threads, SizeIs(1));
}

}  // namespace
}  // namespace firstoff
