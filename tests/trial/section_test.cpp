#include <gtest/gtest.h>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

firstoff::Setup bench() {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addTurningTool(setup, 3, 'C', 0.4);
    shop::addGroovingTool(setup, 5, 3, 0.2);
    shop::addDrill(setup, 9, 10);
    for (int number : {3, 11}) {
        Offset offset;
        offset.number = number;
        setup.offsets.push_back(offset);
    }
    return setup;
}

struct Row {
    const char* name;
    const char* program;
    const char* expected;  // everything found, as code@line
};

class Sections : public testing::TestWithParam<Row> {};

// Common practice, no source: a section says itself what it needs and leaves nothing dangerous behind.
TEST_P(Sections, FindsExactlyThis) {
    const auto trial = shop::run(GetParam().program, bench());
    EXPECT_EQ(shop::found(*trial), GetParam().expected);
}

INSTANTIATE_TEST_SUITE_P(
    Trial, Sections,
    testing::Values(
        Row{"each section says all it needs",
            "N1 T0101\nG97 G99 S800 M03 M08\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\nM09\n"
            "N2 T0303\nG97 G99 S800 M03 M08\nG00 X44. Z3.\nG01 Z-20. F.1\nX54.\nG00 X120. Z60.\nM09\nM30\n",
            ""},
        Row{"speed and direction left to the section before",
            "N1 T0101\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\n"
            "N2 T0303\nG00 X44. Z3.\nG01 Z-20. F.1\nX54.\nG00 X120. Z60.\nM30\n",
            "section-needs-earlier-words@7"},
        Row{"the same tool called again is no new section",
            "N1 T0101\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\n"
            "T0101\nG00 X44. Z3.\nG01 Z-20. F.1\nX54.\nG00 X120. Z60.\nM30\n",
            ""},
        Row{"feed of the tool before",
            "N1 T0101\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\n"
            "N2 T0303\nG97 S800 M03\nG00 X44. Z3.\nG01 Z-20.\nX54.\nG00 X120. Z60.\nM30\n",
            "feed-of-other-tool@10"},
        Row{"surface speed into the tool change",
            "N1 T0101\nG50 S2500\nG96 S180 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\n"
            "N2 T0303\nG96 S180 M03\nG00 X44. Z3.\nG01 Z-20. F.1\nX54.\nG00 X120. Z60.\nM30\n",
            "surface-speed-left-on@8"},
        Row{"fixed speed before the tool change",
            "N1 T0101\nG50 S2500\nG96 S180 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG97 S800\nG00 X120. Z60.\n"
            "N2 T0303\nG96 S180 M03\nG00 X44. Z3.\nG01 Z-20. F.1\nX54.\nG00 X120. Z60.\nM30\n",
            ""},
        Row{"spindle stopped at the bottom of a groove",
            "T0505\nG97 S400 M03\nG00 X54. Z-10.\nG01 X40. F.08\nM05\nG00 X54.\nX120. Z60.\nM30\n",
            "spindle-stopped-before-retract@6"},
        Row{"spindle stopped after the retract",
            "T0505\nG97 S400 M03\nG00 X54. Z-10.\nG01 X40. F.08\nG00 X54.\nM05\nX120. Z60.\nM30\n", ""},
        Row{"coolant off between two cuts",
            "T0101\nG97 S800 M03\nM08\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nM09\nG00 Z3.\nX44.\nG01 Z-20.\nX54.\n"
            "G00 X120. Z60.\nM30\n",
            "coolant-off-while-cutting@10"},
        Row{"coolant off on the way out",
            "T0101\nG97 S800 M03\nM08\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nM09\nG00 X120. Z60.\nM30\n", ""},
        Row{"a program that is dry throughout", "T0101\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nM30\n", ""},
        Row{"the offset of the neighbour",
            "T0103\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\nM30\n",
            "offset-of-other-station@1"},
        Row{"spindle stopped on the way out",
            "T0101\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX52.\nG00 X120. Z60. M05\nM30\n", ""},
        Row{"ten times the feed", "T0101\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F2.5\nX54.\nG00 X120. Z60.\nM30\n",
            "feed-improbable@4"},
        Row{"a feed per revolution under G98",
            "T0101\nG98 G97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\nM30\n", "feed-improbable@4"},
        Row{"a grooving blade that turns deeper than it is wide",
            "T0505\nG97 S400 M03\nG00 X42. Z3.\nG01 Z-10. F.08\nX54.\nG00 X120. Z60.\nM30\n",
            "blade-cuts-sideways@4 feed-in-air@5"},
        Row{"a grooving blade that turns no deeper",
            "T0505\nG97 S400 M03\nG00 X45. Z3.\nG01 Z-10. F.08\nX54.\nG00 X120. Z60.\nM30\n", ""},
        Row{"a drill under surface speed",
            "T0909\nG50 S2500\nG96 S80 M03\nG00 X0 Z5.\nG01 Z-20. F.15\nG00 Z5.\nX120. Z60.\nM30\n",
            "drill-at-surface-speed@5"},
        Row{"a minus that is missing", "T0101\nG97 S800 M03\nG00 X46. Z3.\nG01 Z20. F.25\nX54.\nG00 X120. Z60.\nM30\n",
            "section-cuts-nothing@4 feed-in-air@4"},
        Row{"an offset of its own", "T0111\nG97 S800 M03\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\nM30\n",
            ""}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(Sections, SaysWhatIsLeftToEarlierOnes) {
    const auto trial = shop::run(
        "N1 T0101\nG97 S800 M03 M08\nG00 X46. Z3.\nG01 Z-20. F.25\nX54.\nG00 X120. Z60.\n"
        "N2 T0303\nG97 S800\nG00 X44. Z3.\nG01 Z-20. F.1\nX54.\nG00 X120. Z60.\nM30\n",
        bench());
    const auto notes = shop::findings(*trial, "section-needs-earlier-words");
    ASSERT_EQ(notes.size(), 1u);
    EXPECT_NE(notes[0].message.find("the spindle direction (M03 or M04) and coolant (M08)"), std::string::npos)
        << notes[0].message;
    EXPECT_EQ(trial->verdict, Verdict::Clear);
}

}  // namespace
}  // namespace firstoff
