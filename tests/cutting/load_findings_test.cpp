// What loads give away, and what they leave unsaid where something is not known.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>

#include "sim/cutting/cutting_load.h"
#include "sim/cutting/spindle_limits.h"
#include "tests/support/reckoned_cut.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using shop::cutAndReckon;
using shop::ReckonedCut;

// 2.5 mm deep at 0.3 mm, 800 rev/min on 60 mm: 1500 N, 43.1 N m, 3.61 kW with kc 2000.
constexpr const char* kCut = "T0101\nG97 G99 S800 M03\nG00 X55 Z2\nG01 Z-30 F.3\nX64\nG00 Z2\nM30\n";

Setup workshop() {
    auto setup = shop::barStock(60, 80, 0);
    shop::addTurningTool(setup, 1, 'C', 0, 90);
    setup.material = shop::material(2000, 0);
    setup.machine.spindle.curve = {{500, 200}, {3000, 60}};
    setup.machine.spindle.powerKw = 30;
    setup.machine.spindle.efficiency = 0.8;
    return setup;
}

std::vector<std::string> codes(const ReckonedCut& cut) {
    std::vector<std::string> all;
    for (const Finding& finding : cut.loads.findings) all.push_back(finding.code);
    return all;
}

double valueOf(const Finding& finding, const std::string& name) {
    for (const auto& [key, value] : finding.values) {
        if (key == name) return value;
    }
    return -1;
}

struct OverLimit {
    const char* code;
    std::function<void(Setup&)> change;
    const char *asked, *stands;
    double askedValue, standsValue;
};

class LoadLimit : public testing::TestWithParam<OverLimit> {};

TEST_P(LoadLimit, IsAWarningWithPlaceTimeAndFigures) {
    const OverLimit& limit = GetParam();
    EXPECT_TRUE(codes(cutAndReckon(kCut, workshop())).empty()) << "within all limits before the change";
    auto setup = workshop();
    limit.change(setup);
    const ReckonedCut cut = cutAndReckon(kCut, std::move(setup));
    ASSERT_EQ(codes(cut), std::vector<std::string>{limit.code});
    const Finding& f = cut.loads.findings[0];
    EXPECT_EQ(f.severity, Severity::Warning);
    EXPECT_EQ(f.span.line, 4u);
    ASSERT_TRUE(f.timeS && f.place);
    const TimedMove& pass = cut.timeline.moves[cut.cutsOfLine(4).at(0)];
    EXPECT_GE(*f.timeS, pass.t0);
    EXPECT_LE(*f.timeS, pass.t1);
    // Single precision of the samples.
    EXPECT_NEAR(valueOf(f, limit.asked), limit.askedValue, 1e-3 * limit.askedValue);
    EXPECT_NEAR(valueOf(f, limit.stands), limit.standsValue, 1e-6 * limit.standsValue);
    EXPECT_FALSE(f.message.empty() || f.remedy.empty());
}

// Mean radius of the cut 28.75 mm, so 1500 N make 43.125 N m and, at 800 rev/min, 3.6128 kW.
INSTANTIATE_TEST_SUITE_P(Loads, LoadLimit,
                         testing::Values(OverLimit{"spindle-torque-exceeded",
                                                   [](Setup& s) {
                                                       s.machine.spindle.curve = {{600, 50}, {1000, 30}};
                                                   },
                                                   "torque_nm", "available_nm", 43.125, 40},
                                         OverLimit{"spindle-power-exceeded",
                                                   [](Setup& s) {
                                                       s.machine.spindle.powerKw = 4;
                                                       s.machine.spindle.curve = {{800, 44}, {850, 40}};
                                                   },
                                                   "power_kw", "available_kw", 3.6128, 3.2},
                                         OverLimit{"cutting-force-above-limit",
                                                   [](Setup& s) { s.tools[0].maxForceN = 1400; }, "force_n", "limit_n",
                                                   1500, 1400},
                                         OverLimit{"feed-above-edge-limit", [](Setup& s) { s.tools[0].maxFeed = 0.25; },
                                                   "feed_mm_per_rev", "limit_mm_per_rev", 0.3, 0.25},
                                         OverLimit{"depth-above-edge-limit", [](Setup& s) { s.tools[0].maxDepth = 2; },
                                                   "depth_mm", "limit_mm", 2.5, 2}),
                         [](const auto& row) {
                             std::string name = row.param.code;
                             std::erase(name, '-');
                             return name;
                         });

bool anySays(const std::vector<std::string>& sentences, const std::string& words) {
    return std::any_of(sentences.begin(), sentences.end(),
                       [&](const std::string& s) { return s.find(words) != std::string::npos; });
}

TEST(LoadFindings, NoForceIsToldOfAMaterialWithoutData) {
    struct Case {
        const char *name, *why;
        bool noted;
    };
    for (const Case& c : {Case{"unobtainium", "nothing under", true},
                          {"VDI 3323 group 38", "without the exponent", true},
                          {"", "does not say what the bar is made of", false}}) {
        auto setup = workshop();
        setup.material = {};
        setup.material.name = c.name;
        setup.tools[0].maxForceN = 1;
        const ReckonedCut cut = cutAndReckon(kCut, std::move(setup));
        EXPECT_FALSE(cut.loads.forcesKnown);
        EXPECT_TRUE(anySays(cut.loads.notReckoned, c.why)) << c.name;
        const std::vector<std::string> expected =
            c.noted ? std::vector<std::string>{"material-without-data"} : std::vector<std::string>{};
        EXPECT_EQ(codes(cut), expected) << c.name;
        for (const LoadSample& s : cut.loads.samples) {
            ASSERT_EQ(s.cuttingN, 0);
            ASSERT_EQ(s.powerKw, 0);
        }
        EXPECT_GT(cut.loads.tools.at(0).removalMm3PerS.value, 0) << "the chip itself is known";
        EXPECT_EQ(verdictOf(cut.loads.findings), Verdict::Clear);
    }
}

TEST(LoadFindings, ASpindleWithoutACurveIsNotedOnceAndJudgedByNothing) {
    auto setup = workshop();
    setup.machine.spindle = {};
    setup.material = shop::material(20000, 0);
    const ReckonedCut cut = cutAndReckon(kCut, std::move(setup));
    ASSERT_EQ(codes(cut), std::vector<std::string>{"spindle-without-curve"});
    EXPECT_EQ(cut.loads.findings[0].severity, Severity::Note);
}

// 60 N m at 3000 rev/min make 18.8 kW, and between 500 and 3000 rev/min, at 2035.7, 114 N m make 24.3 kW.
TEST(LoadFindings, ACurveAboveThePowerOfTheMotorIsNoted) {
    auto setup = workshop();
    setup.machine.spindle.powerKw = 11;
    EXPECT_NEAR(powerOfCurveKw(setup.machine.spindle), 24.302, 1e-3);
    EXPECT_NEAR(mostPowerKw(setup.machine.spindle), 11 * 0.8, 1e-12) << "the lower of curve and motor";
    const ReckonedCut cut = cutAndReckon(kCut, std::move(setup));
    ASSERT_EQ(codes(cut), std::vector<std::string>{"spindle-curve-above-power"});
    const Finding& f = cut.loads.findings[0];
    EXPECT_EQ(f.severity, Severity::Note);
    EXPECT_EQ(f.span.file, SourceSpan::File::Setup);
    EXPECT_NEAR(valueOf(f, "curve_kw"), 24.302, 1e-3);
    EXPECT_NE(f.message.find("24.3 kW"), std::string::npos) << f.message;
}

TEST(LoadFindings, SayWhatWasTakenForGranted) {
    const ReckonedCut cut = cutAndReckon(kCut, workshop());
    EXPECT_TRUE(anySays(cut.loads.assumed, "kc1.1 = 2000"));
    EXPECT_TRUE(anySays(cut.loads.assumed, "the test")) << "the source of the figures";
    EXPECT_TRUE(anySays(cut.loads.assumed, "inaccurate"));
    EXPECT_TRUE(anySays(cut.loads.assumed, "sharp"));
}

TEST(LoadFindings, MetalTakenWithTheSpindleStillHasNoLoad) {
    const ReckonedCut cut = cutAndReckon("T0101\nG98\nG00 X55 Z2\nG01 Z-30 F100\nM30\n", workshop());
    EXPECT_TRUE(cut.loads.runs.empty());
    EXPECT_TRUE(anySays(cut.loads.notReckoned, "spindle standing still"));
}

}  // namespace
}  // namespace firstoff
