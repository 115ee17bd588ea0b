// Profiles made ready for drawing.
#include "sim/cutting/profile_plot.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {
namespace {

// Waves of 0.1 mm and 2 µm to either side, 2 mm of them, and a peak that stands between two heights.
SurfaceProfile waves() {
    SurfaceProfile profile;
    profile.step = 0.0005;
    for (int i = 0; i <= 4000; ++i) profile.heights.push_back(0.002 * std::sin(2 * kPi * i / 200.0));
    profile.peaks.push_back({1.00025, 0.009});
    return profile;
}

TEST(ProfilePlot, KeepsEveryExtremeAndMakesNothingUp) {
    const SurfaceProfile profile = waves();
    for (int columns : {1, 7, 40, 100'000}) {
        const std::vector<PlotPoint> line = plotLine(profile, columns);
        EXPECT_LE(line.size(), 4 * static_cast<std::size_t>(columns) + 1);
        EXPECT_EQ(line.front().along, 0);
        EXPECT_DOUBLE_EQ(line.back().along, profile.length());
        const auto [low, high] =
            std::minmax_element(line.begin(), line.end(), [](PlotPoint a, PlotPoint b) { return a.height < b.height; });
        EXPECT_EQ(high->height, 0.009);
        EXPECT_EQ(low->height, *std::min_element(profile.heights.begin(), profile.heights.end()));
        double before = -1;
        for (const PlotPoint& p : line) {
            EXPECT_GT(p.along, before);
            before = p.along;
            const auto i = static_cast<std::size_t>(std::lround(p.along / profile.step));
            const bool peak = p.along == 1.00025 && p.height == 0.009;
            EXPECT_TRUE(peak || profile.heights[i] == p.height) << p.along;
        }
    }
}

TEST(ProfilePlot, DrawsTheMeanLineThatTheFiguresCountFrom) {
    SurfaceProfile profile = waves();
    profile.peaks.clear();
    for (double cutOff : {0.25, 8.0}) {  // filtered, and too short for that
        const Roughness r = roughnessOf(profile, cutOff);
        const std::vector<double> line = meanLineOf(profile, r);
        const auto first = static_cast<std::size_t>(std::lround(r.from / profile.step));
        double sum = 0;
        for (std::size_t i = 0; i < line.size(); ++i) sum += std::abs(profile.heights[first + i] - line[i]);
        // The same sum but for the trapezoids' halves at its ends.
        EXPECT_NEAR(sum / static_cast<double>(line.size() - 1), r.ra, 2 * 0.002 / 1000);
        const ProfilePlot plot = profilePlot(profile, r, 100);
        EXPECT_DOUBLE_EQ(plot.meanLine.front().along, r.from);
        EXPECT_DOUBLE_EQ(plot.meanLine.back().along, r.to);
        ASSERT_EQ(plot.sections.size(), static_cast<std::size_t>(r.sections) + 1);
        const double section = r.filtered() ? r.cutOff : profile.length();
        EXPECT_NEAR(plot.sections[1] - plot.sections[0], section, profile.step);
    }
}

TEST(ProfilePlot, TakesTheLargestRoundScale) {
    struct Row {
        double length, rise, width, height, scale, magnified;
    };
    for (const Row& row :
         {Row{1.75, 0.0045, 140, 50, 80, 100}, Row{1.75, 0.0045, 250, 50, 100, 100},
          Row{0.56, 0.001, 140, 50, 250, 200}, Row{5.6, 0.040, 140, 50, 25, 50}, Row{0.1, 2, 140, 50, 25, 1}}) {
        ProfilePlot plot;
        plot.length = row.length;
        plot.highest = row.rise;
        const PlotScale scale = plotScale(plot, row.width, row.height);
        EXPECT_DOUBLE_EQ(scale.length, row.scale) << row.length;
        EXPECT_DOUBLE_EQ(scale.magnified, row.magnified) << row.length;
    }
    ProfilePlot flat;
    flat.length = 1;
    EXPECT_TRUE(std::isfinite(plotScale(flat, 100, 50).height()));
}

}  // namespace
}  // namespace firstoff
