// M codes that only the set-up knows: [m_codes.M63].
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "sim/setup/setup.h"
#include "sim/setup/setup_keys.h"

namespace firstoff {
namespace {

// Findings of that code; a set-up with nothing but M codes has others, about what it lacks.
std::vector<Finding> findingsOf(const std::vector<Finding>& all, const std::string& code) {
    std::vector<Finding> result;
    std::copy_if(all.begin(), all.end(), std::back_inserter(result), [&](const Finding& f) { return f.code == code; });
    return result;
}

TEST(MachineCodes, AreReadInOrderOfTheirNumber) {
    const auto setup = readSetup(
        "[m_codes.M63]\nmeaning = \"catcher forward\"\ntime_s = 1.5\n"
        "[m_codes.M07]\nmeaning = \"high pressure\"\ncoolant = \"on\"\n"
        "[m_codes.M19]\nmeaning = \"oriented\"\nspindle = \"stop\"\n",
        "set-up");
    ASSERT_EQ(setup.machineCodes.size(), 3u);
    EXPECT_EQ(setup.machineCodes[0].number, 7);
    EXPECT_EQ(setup.machineCodes[0].coolant, true);
    EXPECT_EQ(setup.machineCodes[0].timeS, 0);
    EXPECT_EQ(setup.machineCodes[1].spindle, SpindleDirection::Stopped);
    EXPECT_FALSE(setup.machineCodes[1].coolant.has_value());
    EXPECT_EQ(setup.machineCodes[2].meaning, "catcher forward");
    EXPECT_EQ(setup.machineCodes[2].timeS, 1.5);
    EXPECT_FALSE(setup.machineCodes[2].spindle.has_value());
    EXPECT_EQ(setup.machineCode(63), &setup.machineCodes[2]);
    EXPECT_EQ(setup.machineCode(64), nullptr);
}

TEST(MachineCodes, SayWhatIsWrongWithThem) {
    const auto setup = readSetup(
        "[m_codes]\nM63 = 2.0\n"
        "[m_codes.G63]\nmeaning = \"\"\n"
        "[m_codes.M1000]\nmeaning = \"\"\n"
        "[m_codes.M64]\ntime_s = -1\nspindle = \"left\"\n"
        "[m_codes.M8]\nmeaning = \"\"\n[m_codes.M08]\nmeaning = \"\"\n",
        "set-up");
    EXPECT_EQ(findingsOf(setup.findings, "setup-unknown-key").size(), 1u);
    EXPECT_EQ(findingsOf(setup.findings, "setup-unknown-table").size(), 2u);
    EXPECT_EQ(findingsOf(setup.findings, "setup-out-of-range").size(), 1u);
    EXPECT_EQ(findingsOf(setup.findings, "setup-unknown-choice").size(), 1u);
    EXPECT_EQ(findingsOf(setup.findings, "setup-duplicate-m-code").size(), 1u);
}

TEST(MachineCodes, CannotGiveACodeOfTheTradeAnotherMeaning) {
    for (const char* code : {"M00", "M03", "M30", "M98"}) {
        const auto setup =
            readSetup("[m_codes." + std::string(code) + "]\nmeaning = \"door\"\nspindle = \"stop\"\n", "set-up");
        const Toolpath path = interpret(readProgram("M30\n", "program"), setup);
        const auto found = findingsOf(path.findings, "setup-m-code-known");
        ASSERT_EQ(found.size(), 1u) << code;
        EXPECT_EQ(found[0].span.file, SourceSpan::File::Setup);
        EXPECT_EQ(found[0].span.line, 1u);
        EXPECT_THAT(found[0].message, testing::HasSubstr(code));
    }
}

TEST(MachineCodes, NumberComesFromTheNameOfTheTable) {
    EXPECT_EQ(machineCodeNumber("m_codes.M63"), 63);
    EXPECT_EQ(machineCodeNumber("m_codes.M007"), 7);
    for (const char* name :
         {"m_codes", "m_codes.", "m_codes.M", "m_codes.63", "m_codes.M6.3", "m_codes.M1000", "M63"}) {
        EXPECT_EQ(machineCodeNumber(name), std::nullopt) << name;
    }
}

}  // namespace
}  // namespace firstoff
