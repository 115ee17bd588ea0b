// Roughness of profiles that can be worked out by hand.
#include "sim/cutting/roughness.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <vector>

#include "sim/base/units.h"

namespace firstoff {
namespace {

SurfaceProfile profileOf(double length, double step, const std::function<double(double)>& height) {
    SurfaceProfile profile;
    profile.step = step;
    for (double x = 0; x <= length + step / 2; x += step) profile.heights.push_back(height(x));
    return profile;
}

double wave(double x, double length) {
    return std::sin(2 * kPi * x / length);
}

// Trapezoids over steps of a 400th of a wave: mean and mean square are right to 1e-4.
constexpr double kPart = 1e-3;

TEST(Roughness, OfASine) {
    // Of amplitude A: Ra = 2 A / pi, Rq = A / sqrt 2, Rz = Rt = 2 A. Wave 0.1 mm at cut-off 0.8: nothing of it passes.
    const double a = 0.002;
    const SurfaceProfile profile = profileOf(6, 0.00025, [&](double x) { return a * wave(x, 0.1); });
    const Roughness r = roughnessOf(profile, 0.8);
    EXPECT_EQ(r.sections, 5);
    EXPECT_FALSE(r.cutShort());
    EXPECT_NEAR(r.to - r.from, 4, 0.001);
    EXPECT_NEAR(r.ra, 2 * a / kPi, kPart * a);
    EXPECT_NEAR(r.rq, a / std::sqrt(2.0), kPart * a);
    EXPECT_NEAR(r.rt, 2 * a, kPart * a);
    EXPECT_NEAR(r.rz, 2 * a, kPart * a);
    EXPECT_NEAR(r.rp, a, kPart * a);
    EXPECT_NEAR(r.rv, a, kPart * a);
    ASSERT_TRUE(r.rsm);
    EXPECT_NEAR(*r.rsm, 0.1, 1e-5);
}

struct Passing {
    double wave, share;
};

// ISO 16610-21: a wave as long as the cut-off passes at half its height; the others by the formula of its weighting
// function, exp(-pi (alpha lambda_c / lambda)²).
TEST(Roughness, TheFilterPassesHalfOfAWaveAsLongAsTheCutOff) {
    EXPECT_NEAR(passedIntoMeanLine(0.8, 0.8), 0.5, 1e-12);
    const std::vector<Passing> rows = {{0.8, 0.5}, {1.6, std::pow(0.5, 0.25)}, {0.4, std::pow(0.5, 4.0)}};
    for (const Passing& row : rows) {
        const SurfaceProfile profile = profileOf(10, 0.001, [&](double x) { return wave(x, row.wave); });
        const Roughness r = roughnessOf(profile, 0.8);
        // What stays in the roughness profile is the rest; the filter sees a whole cut-off to either side.
        EXPECT_NEAR(r.rt / 2, 1 - row.share, 2e-3) << row.wave;
    }
}

TEST(Roughness, FormAndWavinessGoIntoTheMeanLine) {
    const SurfaceProfile marks = profileOf(6, 0.0005, [](double x) { return 0.002 * wave(x, 0.2); });
    const SurfaceProfile tilted =
        profileOf(6, 0.0005, [](double x) { return 0.002 * wave(x, 0.2) + 0.01 * x + 0.02 * wave(x, 40); });
    EXPECT_NEAR(roughnessOf(tilted, 0.8).ra, roughnessOf(marks, 0.8).ra, 0.01 * 0.00127);
}

// A sawtooth is 1/4 of its height in Ra and 1/sqrt(12) in Rq.
TEST(Roughness, OfASawtooth) {
    const SurfaceProfile profile =
        profileOf(6, 0.0001, [](double x) { return 0.004 * (x / 0.1 - std::floor(x / 0.1)); });
    const Roughness r = roughnessOf(profile, 0.8);
    EXPECT_NEAR(r.ra, 0.001, 5e-6);
    EXPECT_NEAR(r.rq, 0.004 / std::sqrt(12.0), 5e-6);
    EXPECT_NEAR(r.rt, 0.004, 1e-5);
}

TEST(Roughness, PeaksBetweenTheHeightsCount) {
    SurfaceProfile profile = profileOf(6, 0.02, [](double) { return 0.0; });
    for (double at = 0.01; at < 6; at += 0.2) profile.peaks.push_back({at, 0.003});
    const Roughness r = roughnessOf(profile, 0.8);
    EXPECT_NEAR(r.rt, 0.003, 1e-12);
    EXPECT_NEAR(r.rz, 0.003, 1e-12);
}

// One tall peak: in the mean of the five sections it counts a fifth, in Rt as a whole.
TEST(Roughness, RzIsTheMeanOfTheSectionsAndRtOfAll) {
    const SurfaceProfile profile = profileOf(6, 0.0005, [](double x) {
        const double single = std::abs(x - 3.0125) < 0.002 ? 0.004 : 0;
        return 0.001 * wave(x, 0.05) + single;
    });
    const Roughness r = roughnessOf(profile, 0.8);
    EXPECT_NEAR(r.rt, 0.002 + 0.004, 1e-4);
    EXPECT_NEAR(r.rz, 0.002 + 0.004 / 5, 1e-4);
}

struct Room {
    double length;
    int sections;
    bool filtered;
};

TEST(Roughness, AShortProfileGetsFewerSectionsAndSaysSo) {
    // Half a cut-off at either end belongs to the filter.
    for (const Room& row : {Room{5.6, 5, true}, Room{4.8, 5, true}, Room{4.7, 4, true}, Room{1.6, 1, true},
                            Room{1.5, 1, false}, Room{0.3, 1, false}}) {
        const SurfaceProfile profile = profileOf(row.length, 0.0005, [](double x) { return 0.001 * wave(x, 0.1); });
        const Roughness r = roughnessOf(profile, 0.8);
        EXPECT_EQ(r.sections, row.sections) << row.length;
        EXPECT_EQ(r.filtered(), row.filtered) << row.length;
        EXPECT_EQ(r.cutShort(), row.sections < 5) << row.length;
        // The ends cost less than 1 % of the height.
        EXPECT_NEAR(r.rt, 0.002, 2e-5) << row.length;
    }
}

TEST(Roughness, UnfilteredProfilesAreMeasuredFromTheirMean) {
    const SurfaceProfile profile = profileOf(1, 0.0005, [](double x) { return 0.001 * wave(x, 0.1) + 5; });
    const Roughness r = roughnessOf(profile, 0.8);
    EXPECT_FALSE(r.filtered());
    EXPECT_NEAR(r.ra, 2 * 0.001 / kPi, 2e-5);
}

// ISO 4288 table 3 (from memory).
TEST(Roughness, CutOffsByTheSpacingOfTheMarks) {
    const std::vector<std::pair<double, double>> rows = {{0.02, 0.08}, {0.04, 0.08}, {0.05, 0.25}, {0.13, 0.25},
                                                         {0.2, 0.8},   {0.4, 0.8},   {0.41, 2.5},  {1.3, 2.5},
                                                         {2, 8},       {4, 8}};
    for (const auto& [spacing, cutOff] : rows) EXPECT_EQ(cutOffFor(spacing), cutOff) << spacing;
}

TEST(Roughness, SpacingLeavesOutRipplesThatDoNotCount) {
    const SurfaceProfile rippled =
        profileOf(3, 0.0005, [](double x) { return 0.01 * wave(x, 0.3) + 0.0003 * wave(x, 0.011); });
    const auto spacing = spacingOf(rippled);
    ASSERT_TRUE(spacing);
    EXPECT_NEAR(*spacing, 0.3, 0.003);
    EXPECT_FALSE(spacingOf(profileOf(3, 0.01, [](double) { return 1.0; })));
}

}  // namespace
}  // namespace firstoff
