// Exercises: every answer is reckoned again here from the words of the program, another way than the trial did.
// Formulas: n = 1000 v / (pi d), D(n) = D(1) sqrt(n) (common practice, no source).
#include "sim/output/sheets/exercises.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "tests/support/demo_trials.h"
#include "tests/support/shop.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using Kind = Exercise::Kind;

double valueOf(const Exercise& exercise, const std::string& name) {
    for (const auto& [known, value] : exercise.values) {
        if (known == name) return value;
    }
    ADD_FAILURE() << "no " << name << " in " << exercise.question;
    return NAN;
}

// The number behind a letter of a block, or of the last block before it that has one.
double lastWord(const Program& program, BlockId block, char letter) {
    for (BlockId id = block + 1; id-- > 0;) {
        const Block& b = program.blocks[id];
        for (const Word* word = program.end(b); word != program.begin(b);) {
            --word;
            if (word->letter == letter && word->form == Word::Form::Number) return word->value;
        }
    }
    ADD_FAILURE() << "no " << letter << " up to block " << block;
    return NAN;
}

class ExercisesOfJob : public testing::TestWithParam<const char*> {};

TEST_P(ExercisesOfJob, AgreeWithTheWordsOfTheProgram) {
    const Trial& trial = shop::demoTrial(GetParam());
    const Program& program = trial.program;
    constexpr double kPi = 3.14159265358979323846;
    const std::vector<Exercise> exercises = exercisesOf(trial);
    EXPECT_GE(exercises.size(), 4u);
    std::set<std::string> questions;
    for (const Exercise& e : exercises) {
        SCOPED_TRACE(e.question + " " + e.answer);
        EXPECT_TRUE(questions.insert(e.question).second);
        switch (e.kind) {
            case Kind::SpindleSpeed: {
                const double v = lastWord(program, e.block, 'S'), d = lastWord(program, e.block - 1, 'X');
                EXPECT_DOUBLE_EQ(valueOf(e, "surface_speed_m_per_min"), v);
                EXPECT_NEAR(valueOf(e, "diameter_mm"), std::abs(d), 1e-6);
                // The trial's speed is within a thousandth of the formula, else it is not asked.
                EXPECT_NEAR(valueOf(e, "rev_per_min"), 1000 * v / (kPi * std::abs(d)), 2);
                break;
            }
            case Kind::ClampHolds: {
                const double v = lastWord(program, e.block, 'S');
                EXPECT_DOUBLE_EQ(valueOf(e, "surface_speed_m_per_min"), v);
                EXPECT_NEAR(valueOf(e, "diameter_mm"), 1000 * v / (kPi * valueOf(e, "clamp_rev_per_min")), 1e-9);
                break;
            }
            case Kind::FeedPerMinute:
                EXPECT_DOUBLE_EQ(valueOf(e, "feed_mm_per_rev"), lastWord(program, e.block, 'F'));
                EXPECT_NEAR(valueOf(e, "feed_mm_per_min"), lastWord(program, e.block, 'F') * valueOf(e, "rev_per_min"),
                            1e-9);
                break;
            case Kind::EndOfBlock:
                EXPECT_NEAR(valueOf(e, "x_mm"), lastWord(program, e.block, 'X'), 1e-6);
                EXPECT_NEAR(valueOf(e, "z_mm"), lastWord(program, e.block, 'Z'), 1e-6);
                break;
            case Kind::WhatSetIt: {
                const auto line = static_cast<BlockId>(valueOf(e, "line"));
                EXPECT_LE(line, e.block);
                EXPECT_DOUBLE_EQ(lastWord(program, line - 1, 'F'), lastWord(program, e.block, 'F'));
                break;
            }
            case Kind::PassesOfCycle:
            case Kind::DepthOfPass:
                break;  // by hand, below
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Jobs, ExercisesOfJob,
                         testing::Values("bored-bush", "coupling-spigot", "drain-plug", "grooved-pulley",
                                         "hose-adapter", "union-sleeve"),
                         [](const auto& row) {
                             std::string name = row.param;
                             std::erase(name, '-');
                             return name;
                         });

struct Passes {
    const char* job;
    std::uint32_t line;
    double passes, lastDepth;  // NAN: not asked
};

// By hand from the words of the programs, as the language says cycles go.
TEST(Exercises, CountPassesAsOneDoesByHand) {
    const Passes kRows[] = {
        // X54 in steps of 2.5 on radius to the start of the profile at 18.99 + 0.6: 49, 44, 39, 34, 29, 24; 19 is
        // nearer than the first diameter of the profile with its allowance.
        {"coupling-spigot", 18, 6, 2.5},
        // X49 in steps of 2 down to 27.8 + 0.6: 45, 41, 37, 33, 29.
        {"hose-adapter", 18, 5, 2},
        // From R at Z2 in pecks of 8 to Z-40: -6, -14, -22, -30, -38, -40.
        {"hose-adapter", 68, 6, 2},
        // sqrt(n) times 0.3, never less than 0.06, to 1.275 less 0.03, then two finish passes: D1 to D6 are 0.3 to
        // 0.735, from there steps of 0.06 (0.795 … 1.215 is eight and the next stops at 1.245): 15; and two: 17.
        {"hose-adapter", 60, 17, NAN},
        // X47 and X44.
        {"grooved-pulley", 18, 2, 1.5},
    };
    std::map<std::string, int> seen;
    for (const Passes& row : kRows) {
        for (const Exercise& e : exercisesOf(shop::demoTrial(row.job))) {
            if (e.kind != Kind::PassesOfCycle || e.block + 1 != row.line) continue;
            ++seen[row.job];
            EXPECT_EQ(valueOf(e, "passes"), row.passes) << row.job << row.line;
            if (std::isnan(row.lastDepth)) continue;
            EXPECT_NEAR(valueOf(e, "last_depth_mm"), row.lastDepth, 1e-6) << row.line;
        }
    }
    EXPECT_EQ(seen["coupling-spigot"], 1);
    EXPECT_EQ(seen["hose-adapter"], 3);
}

TEST(Exercises, AskForTheFourthPassOfAThread) {
    for (const Exercise& e : exercisesOf(shop::demoTrial("hose-adapter"))) {
        if (e.kind != Kind::DepthOfPass) continue;
        EXPECT_NEAR(valueOf(e, "depth_mm"), 0.3 * std::sqrt(4.0), 1e-9);
        EXPECT_THAT(e.answer, testing::HasSubstr("0.6 mm"));
        return;
    }
    FAIL() << "no question about the thread";
}

TEST(Exercises, AskNothingWhereNothingIsCut) {
    const auto trial = shop::run("G21 G40 G99\nM30\n", shop::barStock(40, 60));
    EXPECT_TRUE(exercisesOf(*trial).empty());
}

}  // namespace
}  // namespace firstoff
