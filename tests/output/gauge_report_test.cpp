// The part against its drawing, as the table and the rows say it.
#include "sim/output/gauge_report.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::EndsWith;
using testing::HasSubstr;
using testing::StartsWith;

WantedDimension diameter(double size, double z) {
    WantedDimension d;
    d.size = size;
    d.at = d.to = {z, 0};
    d.above = 0.02;
    d.below = -0.02;
    return d;
}

// The step of trial_shop.h, 36 over 20, by an offset that stands 0.05 too high; three dimensions, of which the second
// cannot be read and the third lies on the shoulder.
std::shared_ptr<const Trial> worn() {
    auto setup = shop::stepSetup();
    if (setup.offsets.empty()) setup.offsets.emplace_back().number = 1;
    setup.offsets.front().wear.r = 0.025;
    WantedDimension swapped = diameter(36, -10);
    std::swap(swapped.above, swapped.below);
    swapped.trouble = "its limits are the wrong way round";
    setup.wanted.dimensions = {diameter(36, -10), swapped, diameter(36, -20)};
    return shop::run(shop::kStep, std::move(setup));
}

std::vector<std::string> lines(const std::string& text) {
    std::vector<std::string> all;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) all.push_back(line);
    return all;
}

TEST(GaugeReport, TellsEveryDimensionByItsNumberAndOnceWhatToKeyIn) {
    const auto trial = worn();
    const auto table = lines(gaugeTable(*trial));
    ASSERT_GE(table.size(), 6u);
    EXPECT_THAT(table[0], HasSubstr("by path"));
    EXPECT_THAT(table[1], StartsWith("   1  Ø36"));
    EXPECT_THAT(table[1], HasSubstr("36.050"));
    EXPECT_THAT(table[1], HasSubstr("not known"));
    EXPECT_THAT(table[1], HasSubstr("TOO LARGE"));
    EXPECT_THAT(table[1], EndsWith("-0.050 in X of offset 1"));
    // Their limits stand there all the same, as they were given.
    EXPECT_THAT(table[2], StartsWith("   2  Ø36"));
    EXPECT_THAT(table[2], HasSubstr("36.020      35.980"));
    EXPECT_THAT(table[2], EndsWith("not gauged: its limits are the wrong way round"));
    EXPECT_THAT(table[3], EndsWith("not gauged: Z-20.000 lies on a shoulder, at Z-20.000: give a place beside it"));
    EXPECT_THAT(gaugeTable(*trial),
                HasSubstr("Key in, X on diameter, once for each offset and axis:\n    Put -0.050 in X "
                          "of offset 1, added to what stands there: No. 1 is then within its limits "
                          "(-0.070 to -0.030 does it).\n"));
    EXPECT_THAT(gaugeSummary(*trial), HasSubstr("0 of 3 dimensions within their limits (bending not known)"));
}

TEST(GaugeReport, SaysThatAnOutlineThatWasAskedForWasNotCompared) {
    auto setup = shop::stepSetup();
    setup.wanted.dimensions = {diameter(36, -10)};
    setup.wanted.line = 999;  // holds no finishing cycle
    const auto trial = shop::run(shop::kStep, std::move(setup));
    EXPECT_THAT(gaugeTable(*trial), HasSubstr("Outline: not compared"));
    EXPECT_THAT(gaugeSummary(*trial), HasSubstr("outline not compared"));
}

TEST(GaugeReport, WritesARowForEachDimension) {
    const auto rows = lines(gaugeRows(*worn()));
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_EQ(rows[0],
              "number,name,kind,least,most,simulated,bending,expected,unit,state,line,tool,alone_offset,alone_axis,"
              "alone_mm,why");
    EXPECT_THAT(rows[1], StartsWith("1,\"Ø36\",diameter,35.98,36.02,36.05,,36.05,mm,too-large,5,1,1,X,-0.05,"));
    EXPECT_EQ(rows[2], "2,\"Ø36\",diameter,36.02,35.98,,,,mm,not-found,,,,,,\"its limits are the wrong way round\"");
}

}  // namespace
}  // namespace firstoff
