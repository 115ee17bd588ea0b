// Mistakes put into a sound job, and what comes of them.
#include "sim/trial/mistake.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using Kind = Mistake::Kind;

constexpr const char* kProgram =
    "G21 G40 G99\n"        // 1
    "G50 S2500\n"          // 2
    "T0101\n"              // 3
    "G96 S200 M03\n"       // 4
    "G00 X62. Z2.\n"       // 5
    "G42 X36.5\n"          // 6
    "G01 Z-15. F0.2\n"     // 7
    "X50. Z-22.5\n"        // 8
    "X62.\n"               // 9
    "G00 G40 X70. Z10.\n"  // 10
    "T0202\n"              // 11
    "G00 X64. Z5.\n"       // 12
    "G01 Z-5. F0.2\n"      // 13
    "M30\n";               // 14

const Trial& sound() {
    static const auto made = [] {
        auto setup = shop::barStock(60, 80);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        shop::addTurningTool(setup, 2, 'D', 0.4);
        return runTrial(readProgram(kProgram, "sound.nc"), std::move(setup));
    }();
    return *made;
}

std::vector<std::string> told(Kind kind) {
    std::vector<std::string> all;
    for (const Mistake& m : possibleMistakes(sound())) {
        if (m.kind == kind) all.push_back(m.told);
    }
    return all;
}

std::shared_ptr<const Trial> tried(const Mistake& mistake) {
    SpoiltJob job = withMistake(sound(), mistake);
    return runTrial(std::move(job.program), std::move(job.setup));
}

Mistake first(Kind kind) {
    for (const Mistake& m : possibleMistakes(sound())) {
        if (m.kind == kind) return m;
    }
    ADD_FAILURE() << name(kind);
    return {};
}

TEST(Mistake, ListsSlipsOfTheKeys) {
    // Whole figures keep their value without a point on this control.
    EXPECT_THAT(told(Kind::PointLost), testing::ElementsAre("X36.5 keyed as X365", "F0.2 keyed as F02",
                                                            "Z-22.5 keyed as Z-225", "F0.2 keyed as F02"));
    EXPECT_THAT(told(Kind::SignLost), testing::Contains("Z-15. keyed as Z15."));
    EXPECT_THAT(told(Kind::SignLost), testing::Contains("X50. keyed as X-50."));
    EXPECT_THAT(told(Kind::PointMoved), testing::Contains("Z-15. keyed as Z-1.5"));
    EXPECT_THAT(told(Kind::OtherOffset), testing::ElementsAre("T0101 keyed as T0102", "T0202 keyed as T0201"));
    EXPECT_THAT(told(Kind::NoClamp), testing::ElementsAre("G50 S2500 left out"));
    EXPECT_THAT(told(Kind::OtherSide), testing::ElementsAre("G42 keyed as G41"));
}

TEST(Mistake, LeavesLinesWhereTheyAre) {
    for (const Mistake& m : possibleMistakes(sound())) {
        const SpoiltJob job = withMistake(sound(), m);
        EXPECT_EQ(job.program.blocks.size(), sound().program.blocks.size()) << m.told;
        EXPECT_EQ(job.program.text == sound().program.text, m.block == kNoBlock) << m.told;
    }
}

// Z-15. as Z15. sends the tool away from the work, and the diameter of 36.5 is not there.
TEST(Mistake, ALostSignLeavesTheMetalOn) {
    const auto all = possibleMistakes(sound());
    const auto sign =
        std::find_if(all.begin(), all.end(), [](const Mistake& m) { return m.told == "Z-15. keyed as Z15."; });
    ASSERT_NE(sign, all.end());
    EXPECT_GT(shop::diameterAt(*tried(*sign), -10), shop::diameterAt(sound(), -10) + 1);
}

// The contour is left by twice the nose radius on a taper under the wrong side: another part.
TEST(Mistake, OthersChangeThePartOrTheFindings) {
    for (const Kind kind : {Kind::OtherSide, Kind::NoseRadius, Kind::OtherInsert, Kind::TipNumber}) {
        const Mistake m = first(kind);
        const auto trial = tried(m);
        EXPECT_NE(trial->stock->hash(), sound().stock->hash()) << m.told;
    }
    const auto unclamped = tried(first(Kind::NoClamp));
    EXPECT_TRUE(std::any_of(unclamped->findings.begin(), unclamped->findings.end(),
                            [](const Finding& f) { return f.code == "no-speed-clamp"; }));
}

TEST(Mistake, HasAKindOfItsOwnForEveryName) {
    std::map<std::string, int> names;
    for (int k = 0; k <= static_cast<int>(Kind::ShortBar); ++k) ++names[name(static_cast<Kind>(k))];
    EXPECT_EQ(names.size(), static_cast<std::size_t>(Kind::ShortBar) + 1);
}

}  // namespace
}  // namespace firstoff
