// Faults that the cuts give away, end to end from program text.
#include <gtest/gtest.h>

#include <cctype>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// Bar of 50 mm, 60 mm out of the jaws, face 1 mm proud of Z0, one right-hand turning tool, one groover, one parting
// tool that reaches 30 mm (diameter) further in, one drill.
firstoff::Setup bench() {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addGroovingTool(setup, 5, 3, 0.2);
    shop::addPartingTool(setup, 7, 3, 0.2).tip.r -= 15;
    shop::addDrill(setup, 9, 20);
    return setup;
}

struct Row {
    const char* name;
    const char* body;      // after the start, before the end
    const char* expected;  // everything found, as code@line
    Verdict verdict;
};

// Lines 1 to 4 of every program; the body starts on line 5.
const char* const kStart = "G21 G40 G99\nT0101\nG50 S2500\nG96 S180 M03\n";
const char* const kEnd = "G00 X120. Z60.\nM30\n";

class ContactCases : public testing::TestWithParam<Row> {};

TEST_P(ContactCases, FindsExactlyThis) {
    const auto trial = shop::run(std::string(kStart) + GetParam().body + kEnd, bench());
    EXPECT_EQ(shop::foundInTheCut(*trial), GetParam().expected);
    EXPECT_EQ(trial->verdict, GetParam().verdict);
}

INSTANTIATE_TEST_SUITE_P(
    Trial, ContactCases,
    testing::Values(
        Row{"a plain cut is clear", "G00 X46. Z3.\nG01 Z-20. F.25\nX52.\n", "", Verdict::Clear},
        Row{"rapid across the end of the bar", "G00 X40. Z3.\nG00 Z-5.\n", "rapid-into-material@6", Verdict::Problems},
        Row{"rapid that only slides along what was just cut", "G00 X46. Z3.\nG01 Z-20. F.25\nG00 Z3.\n", "",
            Verdict::Clear},
        // The 95° edge leaves a wedge of 5° at the shoulder; a straight pull-out at rapid takes it along.
        Row{"straight pull-out from a shoulder", "G00 X46. Z3.\nG01 Z-20. F.25\nG00 X54.\n", "wedge-torn-at-rapid@7",
            Verdict::Clear},
        Row{"spindle stopped before the cut", "G00 X46. Z3.\nM05\nG98 G01 Z-20. F100.\nX54.\nG99\n",
            "cut-with-spindle-stopped@7", Verdict::Problems},
        Row{"spindle turning the wrong way", "M04\nG00 X46. Z3.\nG01 Z-20. F.25\nX52.\n", "cut-with-spindle-reversed@7",
            Verdict::Problems},
        Row{"retract from a groove at rapid, sideways",
            "G00 X54. Z3.\nT0505\nG00 Z-15.\nG01 X40. F.08\nG00 Z3.\nX54.\n", "rapid-into-material@9",
            Verdict::Problems},
        Row{"spindle told to turn at nothing", "G97 S0\nG00 X46. Z3.\nG98 G01 Z-20. F100.\nX54.\nG99\n",
            "cut-with-spindle-stopped@7", Verdict::Problems},
        // The parting blade stands 13 mm (radius) inside the bar as soon as it is indexed; on the half turn there the
        // drill swings through the bar as well.
        Row{"index that brings a longer tool into the bar", "G00 X54. Z-20.\nT0707\nG97 S600\nG01 X54. F.5\n",
            "index-into-material@6 swing-into-body@6", Verdict::Problems},
        Row{"index just clear of the bar", "G00 X86. Z-20.\nT0707\nG97 S600\nG01 X54. F.5\n", "", Verdict::Clear},
        Row{"drill beside the axis", "T0909\nG97 S800\nG00 X2. Z5.\nG01 Z-10. F.2\nG00 Z5.\n", "drill-beside-axis@8",
            Verdict::Problems},
        Row{"drill as near to the axis as turrets stand", "T0909\nG97 S800\nG00 X0.08 Z5.\nG01 Z-10. F.2\nG00 Z5.\n",
            "", Verdict::Clear},
        // The flutes are 80 mm long and the bar is 1 mm proud.
        Row{"drill as deep as its flutes", "T0909\nG97 S800\nG00 X0 Z5.\nG01 Z-79. F.2\nG00 Z5.\n", "", Verdict::Clear},
        Row{"drill deeper than its flutes", "T0909\nG97 S800\nG00 X0 Z5.\nG01 Z-79.1 F.2\nG00 Z5.\n",
            "drill-deeper-than-flutes@8", Verdict::Problems},
        // A retract that the override knob governs is a habit, a cut is not: F per minute under G99.
        Row{"cut at a feed above the limit", "G00 X46. Z3.\nG01 Z-20. F200.\nX52. F.3\n",
            "feed-above-limit@6 cut-above-feed-limit@6", Verdict::Problems},
        Row{"retract at a feed above the limit", "G00 X46. Z3.\nG01 Z-20. F.25\nX52. F20.\n", "feed-above-limit@7",
            Verdict::Clear}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = std::isalnum(static_cast<unsigned char>(c)) ? c : '_';
        return name;
    });

// Metal torn off by a retract at rapid is no time in the cut.
TEST(TimeInMetal, IsNeverMoreThanTheTimeAtFeed) {
    const auto trial =
        shop::run(std::string(kStart) + "G00 X54. Z3.\nT0505\nG00 Z-15.\nG01 X40. F.08\nG28 U0 W0\nM30\n", bench());
    ASSERT_FALSE(shop::findings(*trial, "rapid-into-material").empty());
    EXPECT_LE(trial->cuttingTimeS, trial->timeline.feedTimeS);
}

TEST(RapidIntoMaterial, SaysHowDeepAndWhere) {
    const auto trial = shop::run(std::string(kStart) + "G00 X40. Z3.\nG00 Z-5.\n" + kEnd, bench());
    const auto found = shop::findings(*trial, "rapid-into-material");
    ASSERT_EQ(found.size(), 1u);
    // The edge stands 5 mm (radius) inside the bar; its nose leaves no less than that at its lowest point.
    EXPECT_NEAR(found[0].values[0].second, 5.0, 1e-9);
    EXPECT_EQ(found[0].span.column, 1u);
    ASSERT_TRUE(found[0].timeS.has_value());
}

}  // namespace
}  // namespace firstoff
